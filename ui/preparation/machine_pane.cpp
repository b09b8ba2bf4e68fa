// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/preparation/machine_pane.h"

#include <QtWidgets/QHBoxLayout>
#include <QtWidgets/QLabel>
#include <QtWidgets/QVBoxLayout>
#include <algorithm>

#include "core/history/fields.h"
#include "core/lab/lab.h"
#include "ui/kit/figures.h"
#include "ui/kit/form.h"
#include "ui/kit/ledger.h"
#include "ui/kit/press_button.h"
#include "ui/kit/sentences.h"
#include "ui/kit/theme.h"
#include "ui/preparation/words.h"

namespace prillbook::ui {
namespace {

constexpr std::size_t events_kept = 60;
constexpr int events_in_sight = 8;

std::vector<ChoiceField::Choice> ways() {
  std::vector<ChoiceField::Choice> choices;
  for (const std::string_view way : history::fields::cleaning::ways) choices.push_back({std::string(way), way_word(way)});
  return choices;
}

PersonId working(Session& session) {
  const auto person = lab::person_by_initials(session.connection, session.journal.author());
  return person.ok() ? person->id : PersonId{};
}

}  // namespace

MachinePane::MachinePane(Session& session, QWidget* parent)
    : QWidget(parent),
      session_(session),
      words_(new QLabel),
      events_(new Ledger(tr("Uses and cleanings"))),
      again_(new PressButton(tr("Clean as last time"), PressButton::Rank::main)),
      way_(new ChoiceField(tr("Cleaned by"), ways())),
      flush_mass_(new ReadingField(tr("Barren rock put through"), {Measure::mass, "g", session.writing.mark, false})),
      kept_field_(new FlagField(tr("The flush"), tr("kept for assay"))),
      cleaned_at_(new DateTimeField(tr("When"), session.journal.clock())),
      log_(new PressButton(tr("Log the cleaning"))),
      retire_(new PressButton(tr("Retire the machine"))),
      assay_part_(new QWidget),
      assay_head_(new QLabel),
      flush_grade_(new ReadingField(tr("Gold in it"), {Measure::grade, "g/t", session.writing.mark, true})),
      flush_u_(new ReadingField(tr("Uncertainty of that"), {Measure::grade, "g/t", session.writing.mark, true})),
      barren_grade_(new ReadingField(tr("Gold in the barren rock"), {Measure::grade, "g/t", session.writing.mark, true})),
      refused_(new QLabel) {
  build();
  bind();
  show_machine({});
}

void MachinePane::bind() {
  flush_mass_->on_commit([this](const auto& mass) -> Result<void> {
    mass_ = mass;
    return {};
  });
  kept_field_->on_commit([this](bool kept) -> Result<void> {
    kept_ = kept;
    return {};
  });
  cleaned_at_->on_commit([this](const auto& when) -> Result<void> {
    when_ = when;
    return {};
  });
  way_->on_commit([this](const auto& way) -> Result<void> {
    flush_mass_->setVisible(way == "flush");
    kept_field_->setVisible(way == "flush");
    return {};
  });
  bind_assay(flush_grade_, [](milling::Cleaning& flush, const auto& grade) { flush.flush_grade = grade; });
  bind_assay(flush_u_, [](milling::Cleaning& flush, const auto& grade) { flush.flush_grade_u = grade; });
  bind_assay(barren_grade_, [](milling::Cleaning& flush, const auto& grade) { flush.barren_grade = grade; });
  connect(again_, &QPushButton::clicked, this, &MachinePane::clean_again);
  connect(retire_, &QPushButton::clicked, this, [this] {
    const Instant now = session_.journal.clock().now();
    const auto done = readings::enter(session_.journal, history::fields::machine::retired_at, machine_.value, to_iso(now));
    if (!done) refuse(done.error());
  });
  connect(log_, &QPushButton::clicked, this, &MachinePane::log_cleaning);
}

void MachinePane::bind_assay(ReadingField* field, Assay put) {
  field->on_commit([this, put = std::move(put)](const auto& grade) -> Result<void> {
    PRILLBOOK_ASSIGN(milling::Cleaning flush, milling::cleaning(session_.connection, flush_));
    put(flush, grade);
    return milling::set_flush_assay(session_.journal, flush_, flush.flush_grade, flush.flush_grade_u, flush.barren_grade);
  });
}

void MachinePane::build() {
  words_->setTextFormat(Qt::PlainText);
  words_->setWordWrap(true);
  refused_->setTextFormat(Qt::PlainText);
  refused_->setWordWrap(true);
  refused_->setFont(face(TextSize::small));
  refused_->setProperty("tone", QStringLiteral("signal"));
  assay_head_->setTextFormat(Qt::PlainText);
  assay_head_->setWordWrap(true);
  again_->setShortcut(QKeySequence(Qt::CTRL | Qt::Key_K));
  again_->setToolTip(tr("Ctrl+K"));
  events_->set_most_rows(events_in_sight);
  cleaned_at_->set_hint(tr("Empty: now."));
  auto* buttons = new QHBoxLayout;
  buttons->addWidget(again_);
  buttons->addWidget(refused_, 1);
  auto* form = new Form(3);
  form->wide(way_);
  form->row({cleaned_at_, flush_mass_, kept_field_});
  auto* log_row = new QHBoxLayout;
  log_row->addWidget(log_);
  log_row->addStretch();
  log_row->addWidget(retire_);
  auto* assay_form = new Form(3);
  assay_form->row({flush_grade_, flush_u_, barren_grade_});
  auto* assay_column = new QVBoxLayout(assay_part_);
  assay_column->setContentsMargins(0, rhythm, 0, 0);
  assay_column->addWidget(assay_head_);
  assay_column->addWidget(assay_form);
  auto* column = new QVBoxLayout(this);
  column->setContentsMargins(0, 0, 0, 0);
  column->setSpacing(rhythm);
  column->addWidget(words_);
  column->addWidget(events_);
  column->addLayout(buttons);
  column->addWidget(form);
  column->addLayout(log_row);
  column->addWidget(assay_part_);
  flush_mass_->hide();
  kept_field_->hide();
}

QString MachinePane::words() const { return words_->text(); }
QString MachinePane::refusal_words() const { return refused_->text(); }

void MachinePane::show_machine(MachineId machine) {
  if (machine != machine_) {  // what was begun for another machine is not written for this one
    mass_.reset();
    when_.reset();
    flush_mass_->leave_record();
    cleaned_at_->leave_record();
  }
  machine_ = machine;
  refused_->clear();
  refresh();
}

void MachinePane::refresh() {
  const bool there = bool(machine_);
  for (QWidget* part : {static_cast<QWidget*>(events_), static_cast<QWidget*>(again_), static_cast<QWidget*>(way_),
                        static_cast<QWidget*>(cleaned_at_), static_cast<QWidget*>(log_), static_cast<QWidget*>(retire_)})
    part->setVisible(there);
  assay_part_->setVisible(false);
  if (!there) {
    words_->setText(tr("No machine is chosen. Machines are entered in Lab set-up; without any, nothing is asked for here."));
    return;
  }
  setEnabled(!session_.read_only());
  const auto cleanings = milling::cleanings_of(session_.connection, machine_);
  if (!cleanings) return words_->setText(tr("The records of this machine can’t be read."));
  show_state();
  show_events(*cleanings);
  again_->setEnabled(!cleanings->empty());
  show_flush(*cleanings);
}

void MachinePane::show_state() {
  const auto state = results::machine_state(session_.connection, machine_, session_.journal.clock().now());
  if (!state) return words_->setText(tr("The records of this machine can’t be read."));
  QString words = QStringLiteral("%1 · %2").arg(to_qt(state->machine.name), hold_up_words(*state, session_.writing.mark));
  if (!state->cleaning_logged)
    words += tr(" · no cleaning logged: carry-over is not judged");
  else if (state->held.mass > Mass{})
    words += tr(" · about %1 in it now").arg(grade_words(state->held.grade, session_.writing.mark));
  words_->setText(words);
}

void MachinePane::show_flush(const std::vector<milling::Cleaning>& cleanings) {
  const milling::Cleaning* shown = nullptr;
  for (const milling::Cleaning& one : cleanings)
    if (one.way == "flush" && one.kept && (!one.flush_grade || !shown || shown->flush_grade)) shown = &one;
  assay_part_->setVisible(shown != nullptr);
  if (!shown) return;
  if (flush_ != shown->id)
    for (ReadingField* field : {flush_grade_, flush_u_, barren_grade_}) field->leave_record();
  flush_ = shown->id;
  assay_head_->setText(
      tr("Assay of the flush of %1, %2").arg(date_time_text(shown->cleaned_at), text(as_typed(shown->flush_mass))));
  flush_grade_->set_value(shown->flush_grade);
  flush_u_->set_value(shown->flush_grade_u);
  barren_grade_->set_value(shown->barren_grade);
}

// Newest first.
void MachinePane::show_events(const std::vector<milling::Cleaning>& cleanings) {
  std::vector<std::pair<std::int64_t, LedgerRow>> events;
  const DecimalMark mark = session_.writing.mark;
  if (const auto uses = results::machine_uses(session_.connection, machine_, events_kept))
    for (const results::MachineUse& use : *uses) {
      QString words = date_time_text(use.step.done_at);
      if (use.judged && use.carried.carryover > Grade{})
        words =
            tr("%1 carried over, %2 % · %3").arg(grade_words(use.carried.carryover, mark), number_words(use.pct, mark), words);
      const LedgerRow row{
          use.step.id.value, 0, to_qt(use.number), step_done_word(use.step.kind), as_typed(use.step.mass_in), true, words};
      events.push_back({use.step.done_at.utc_ms, row});
    }
  for (const milling::Cleaning& one : cleanings) {
    QString words = date_time_text(one.cleaned_at);
    if (one.flush_grade) words = QStringLiteral("%1 · %2").arg(text(as_typed(one.flush_grade)), words);
    if (one.kept && !one.flush_grade) words = tr("kept, not assayed yet · %1").arg(words);
    const LedgerRow row{-one.id.value,        0,    tr("cleaned"), way_word(one.way), as_typed(one.flush_mass),
                        bool(one.flush_mass), words};
    events.push_back({one.cleaned_at.utc_ms, row});
  }
  std::stable_sort(events.begin(), events.end(), [](const auto& a, const auto& b) { return a.first > b.first; });
  std::vector<LedgerRow> rows;
  for (std::size_t i = 0; i < events.size() && i < events_kept; ++i) rows.push_back(std::move(events[i].second));
  events_->setVisible(!rows.empty());
  events_->set_rows(std::move(rows));
}

void MachinePane::refuse(const Error& error) { refused_->setText(preparation_sentence(error)); }

void MachinePane::clean_again() {
  refused_->clear();
  if (!machine_) return;
  const auto done = milling::clean_again(session_.journal, machine_, working(session_));
  if (!done) refuse(done.error());
}

void MachinePane::log_cleaning() {
  refused_->clear();
  if (!way_->value()) {
    way_->show_error({ErrorCode::missing_key, "cleaning.way", "say how it was cleaned", {}});
    return;
  }
  if (!cleaned_at_->commit() || (flush_mass_->isVisibleTo(this) && !flush_mass_->commit())) return;
  milling::NewCleaning fresh{machine_, *way_->value(), when_, working(session_), {}, false, {}};
  if (fresh.way == "flush") {
    fresh.flush_mass = mass_;
    fresh.kept = kept_;
  }
  const auto done = milling::clean(session_.journal, fresh);
  if (!done) return refuse(done.error());
  mass_.reset();
  when_.reset();
  flush_mass_->set_value(std::nullopt);
  cleaned_at_->set_value(std::nullopt);
}

}  // namespace prillbook::ui
