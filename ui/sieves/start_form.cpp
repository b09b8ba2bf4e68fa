// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/sieves/start_form.h"

#include <QtWidgets/QLabel>
#include <QtWidgets/QVBoxLayout>

#include "core/lab/lab.h"
#include "ui/kit/sentences.h"
#include "ui/kit/theme.h"

namespace prillbook::ui {
namespace {

QLabel* quiet_lines() {
  auto* label = new QLabel;
  label->setFont(face(TextSize::small));
  label->setProperty("tone", "quiet");
  label->setTextFormat(Qt::PlainText);
  label->setWordWrap(true);
  return label;
}

PersonId who_sieves(Session& session) {
  const auto person = lab::person_by_initials(session.connection, session.journal.author());
  return person.ok() ? person->id : PersonId{};
}

}  // namespace

StartForm::StartForm(Session& session, QWidget* parent)
    : QWidget(parent), session_(session), stack_(new PickField(tr("Stack"))), known_(quiet_lines()), overdue_(quiet_lines()) {
  stack_->set_read_only(session_.read_only());
  stack_->set_hint(tr("By its name, or its openings: “850, 250, 150 µm”, “20, 60, 100 ASTM”. Enter begins."));
  stack_->on_new([this](const std::string& words) -> Result<std::int64_t> {
    PRILLBOOK_ASSIGN(const SieveStackId made, sieves::add_stack(session_.journal, {}, words));
    return made.value;
  });
  stack_->on_commit([this](std::optional<std::int64_t> id) -> Result<void> {
    if (!id) return {};
    return start(SieveStackId{*id});
  });
  auto* column = new QVBoxLayout(this);
  column->setContentsMargins(0, 0, 0, 0);
  column->setSpacing(rhythm);
  column->addWidget(stack_);
  column->addWidget(known_);
  column->addWidget(overdue_);
}

void StartForm::show_portion(PortionId portion) {
  if (portion != portion_) stack_->leave_record();
  portion_ = portion;
  refresh();
}

void StartForm::refresh() {
  const auto stacks = sieves::stacks(session_.connection);
  if (!stacks.ok()) return stack_->show_error(stacks.error());
  std::vector<PickField::Item> items;
  QStringList words;
  for (const sieves::Stack& stack : *stacks) {
    items.push_back({stack.id.value, to_qt(stack.name)});
    const QString openings = to_qt(stack.openings_in_words(session_.writing.mark));
    words << (openings == to_qt(stack.name) ? openings : QStringLiteral("%1: %2").arg(to_qt(stack.name), openings));
  }
  stack_->set_items(std::move(items));
  known_->setText(words.join(QLatin1Char('\n')));
  known_->setVisible(!words.isEmpty());
  show_overdue(*stacks);
}

// About now, unlike the finding, which is about the day of sieving.
void StartForm::show_overdue(const std::vector<sieves::Stack>& stacks) {
  const Instant now = session_.journal.clock().now();
  QStringList due;
  for (const sieves::Stack& stack : stacks)
    for (const sieves::Sieve& sieve : stack.sieves) {
      const QString name = to_qt(sieve.in_words(session_.writing.mark));
      if (sieve.inspect_by && sieve.inspect_by->utc_ms < now.utc_ms && !due.contains(name)) due << name;
    }
  overdue_->setText(tr("To be inspected before it is used: %1.").arg(due.join(QStringLiteral(", "))));
  overdue_->setProperty("tone", "signal");
  restyle(overdue_);
  overdue_->setVisible(!due.isEmpty());
}

Result<void> StartForm::start(SieveStackId stack) {
  PRILLBOOK_ASSIGN(const SieveAnalysisId made,
                   sieves::start_analysis(session_.journal, {portion_, stack, {}, who_sieves(session_), {}, {}, {}}));
  QMetaObject::invokeMethod(
      this, [this, made] { emit started(made); }, Qt::QueuedConnection);  // the field in hand is finished first
  return {};
}

void StartForm::enter() { stack_->line()->setFocus(Qt::OtherFocusReason); }

}  // namespace prillbook::ui
