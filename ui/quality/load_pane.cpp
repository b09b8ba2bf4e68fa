// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/quality/load_pane.h"

#include <QtWidgets/QHBoxLayout>
#include <QtWidgets/QLabel>
#include <QtWidgets/QVBoxLayout>
#include <algorithm>

#include "core/fire/runs.h"
#include "core/history/fields.h"
#include "core/lab/lab.h"
#include "core/milling/machines.h"
#include "ui/kit/fields.h"
#include "ui/kit/figures.h"
#include "ui/kit/form.h"
#include "ui/kit/press_button.h"
#include "ui/kit/reason_line.h"
#include "ui/kit/sentences.h"
#include "ui/kit/theme.h"
#include "ui/quality/row_list.h"
#include "ui/quality/words.h"

namespace prillbook::ui {
namespace {

QLabel* load_label(TextSize size, const char* tone) {
  auto* label = new QLabel;
  label->setFont(face(size));
  label->setProperty("tone", tone);
  label->setTextFormat(Qt::PlainText);
  label->setWordWrap(true);
  return label;
}

PersonId who_decides(Session& session) {
  const auto person = lab::person_by_initials(session.connection, session.journal.author());
  return person.ok() ? person->id : PersonId{};
}

WaitingRow row_of_control(const results::ControlResult& control) {
  const QString title = QStringLiteral("%1, %2").arg(role_word(control.role), in_short(to_qt(control.name)));
  return {control.charge.value, to_qt(control.label), title, control_line(control), Urgency::usual};
}

// Empty for a control.
QString number_of_sample_charge(Session& session, ChargeId id) {
  const auto held = fire::charge(session.connection, id);
  if (!held.ok() || held->role != controls::Role::ordinary) return {};
  const auto portion = portions::portion(session.connection, held->portion);
  if (!portion.ok()) return {};
  const auto sample = custody::sample(session.connection, portion->sample);
  return sample.ok() ? QStringLiteral("%1/%2").arg(to_qt(sample->number)).arg(portion->number) : QString();
}

QString decided_word(const std::string& decision) {
  if (decision == "held") return LoadPane::tr("held");
  if (decision == "repeated") return LoadPane::tr("to be repeated");
  return LoadPane::tr("accepted");
}

}  // namespace

LoadPane::LoadPane(Session& session, QWidget* parent)
    : QWidget(parent),
      session_(session),
      controls_(new RowList(tr("Controls of the load"))),
      results_(load_label(TextSize::body, "")),
      proofs_(load_label(TextSize::small, "quiet")),
      decisions_(load_label(TextSize::body, "")),
      accept_(new PressButton(tr("Accept"), PressButton::Rank::main)),
      hold_(new PressButton(tr("Hold…"))),
      repeat_(new PressButton(tr("Repeat…"))),
      take_over_(new PressButton(QString())),
      flush_(new PickField(tr("The rock blank came out of a machine, of the flush"))),
      reason_(new ReasonLine) {
  auto* column = new QVBoxLayout(this);
  column->setContentsMargins(0, 0, 0, 0);
  column->setSpacing(rhythm);
  column->addWidget(controls_);
  column->addWidget(take_over_, 0, Qt::AlignLeft);
  column->addWidget(flush_);
  column->addWidget(proofs_);
  column->addWidget(results_);
  column->addSpacing(rhythm);
  auto* buttons = new QHBoxLayout;
  buttons->setSpacing(rhythm);
  for (PressButton* button : {accept_, hold_, repeat_}) {
    button->setEnabled(!session_.read_only());
    buttons->addWidget(button);
  }
  take_over_->setEnabled(!session_.read_only());
  flush_->set_read_only(session_.read_only());
  flush_->on_commit([this](std::optional<std::int64_t> cleaning) -> Result<void> {
    if (!cleaning || !rock_blank()) return {};
    return controls::set_flush(session_.journal, rock_blank(), CleaningId{*cleaning});
  });
  buttons->addStretch();
  column->addLayout(buttons);
  column->addWidget(reason_);
  column->addWidget(decisions_);
  column->addStretch();
  reason_->close();
  connect(controls_, &WaitingList::opened, this, [this](RecordId id) { emit open_requested({history::Entity::charge, id}); });
  connect(accept_, &QPushButton::clicked, this, &LoadPane::accept);
  connect(hold_, &QPushButton::clicked, this, [this] { ask(tr("Why are its results held back?"), "held"); });
  connect(repeat_, &QPushButton::clicked, this, [this] { ask(tr("Why is the load to be repeated?"), "repeated"); });
  connect(take_over_, &QPushButton::clicked, this, &LoadPane::take_over);
  connect(reason_, &ReasonLine::given, this, &LoadPane::enter);
  connect(reason_, &ReasonLine::closed, this, &LoadPane::enter);
}

void LoadPane::show_load(const results::RunControls& load) {
  if (load.run != load_.run) reason_->close();
  load_ = load;
  std::vector<WaitingRow> rows;
  for (const results::ControlResult& control : load_.controls) rows.push_back(row_of_control(control));
  controls_->show_rows(std::move(rows));
  show_transfers();
  show_flushes();
  show_results();
  show_decisions();
}

void LoadPane::show_results() {
  QStringList words;
  const auto run = fire::furnace_run(session_.connection, load_.run);
  const ProofLoss loss = run.ok() ? run->loss() : ProofLoss{};
  const DecimalMark mark = session_.writing.mark;
  if (loss.gold) words << tr("gold lost %1 %").arg(to_qt(fixed(loss.gold->in(unit::percent), 2, mark)));
  if (loss.silver) words << tr("silver lost %1 %").arg(to_qt(fixed(loss.silver->in(unit::percent), 2, mark)));
  proofs_->setText(tr("Its proofs: %1.").arg(words.join(QStringLiteral(", "))));
  proofs_->setVisible(!words.isEmpty());
  QStringList numbers;
  if (const auto charges = fire::charges_in(session_.connection, load_.run); charges.ok())
    for (const ChargeId id : *charges)
      if (const QString number = number_of_sample_charge(session_, id); !number.isEmpty()) numbers << number;
  const char* effect = load_.standing == results::RunStanding::held       ? QT_TR_NOOP("Their summaries are held back.")
                       : load_.standing == results::RunStanding::repeated ? QT_TR_NOOP("They are left out of every mean.")
                                                                          : "";
  const QString in_it = numbers.isEmpty() ? tr("No charge of a sample is in it.")
                                          : tr("Charges of samples in it: %1.").arg(numbers.join(QStringLiteral(", ")));
  results_->setText((in_it + QLatin1Char(' ') + tr(effect)).trimmed());
}

void LoadPane::show_decisions() {
  QStringList lines;
  if (const auto all = controls::decisions_of(session_.connection, load_.run); all.ok())
    for (auto one = all->rbegin(); one != all->rend(); ++one) {
      QString who;
      if (const auto record = history::load_record(session_.connection, history::Entity::person, one->decided_by.value);
          one->decided_by && record.ok())
        who = tr(" by %1").arg(to_qt(record->text(history::fields::person::initials)));
      QString line = QStringLiteral("%1 %2%3").arg(date_time_text(one->decided_at), decided_word(one->decision), who);
      if (one->reason) line += QStringLiteral(": ") + to_qt(*one->reason);
      lines << line;
    }
  decisions_->setText(lines.join(QLatin1Char('\n')));
  decisions_->setVisible(!lines.isEmpty());
}

// A flux blank knows the silver of a lot, a flush assay what a machine kept: one key takes it there.
void LoadPane::show_transfers() {
  transfer_ = {};
  for (const results::ControlResult& control : load_.controls) {
    if (control.found.empty()) continue;
    const auto charge = fire::charge(session_.connection, control.charge);
    if (!charge.ok()) continue;
    if (control.role == controls::Role::blank_flux) {
      if (!charge->litharge_lot) continue;
      const auto lot = fire::lot(session_.connection, charge->litharge_lot);
      if (!lot.ok() || lot->silver) continue;
      take_over_->setText(tr("Write its silver with the lot %1").arg(to_qt(lot->name)));
      transfer_ = control.charge;
    } else if (control.role == controls::Role::flush) {
      const auto flush = milling::cleaning(session_.connection, charge->cleaning);
      if (!flush.ok() || flush->flush_grade) continue;
      take_over_->setText(tr("Write the gold of the flush with its machine"));
      transfer_ = control.charge;
    }
  }
  take_over_->setVisible(bool(transfer_));
}

// The one in hand, or else the first of the load.
ChargeId LoadPane::rock_blank() const {
  ChargeId first;
  for (const results::ControlResult& control : load_.controls) {
    if (control.role != controls::Role::blank_rock) continue;
    if (control.charge.value == controls_->in_hand()) return control.charge;
    if (!first) first = control.charge;
  }
  return first;
}

// Flushes that were kept and wait for their assay.
void LoadPane::show_flushes() {
  std::vector<PickField::Item> items;
  const auto machines = milling::machines(session_.connection);
  for (const milling::Machine& machine : machines.value_or({}))
    for (const milling::Cleaning& one : milling::cleanings_of(session_.connection, machine.id).value_or({}))
      if (one.way == "flush" && one.kept && !one.flush_grade)
        items.push_back({one.id.value, QStringLiteral("%1, %2").arg(to_qt(machine.name), date_time_text(one.cleaned_at))});
  flush_->setVisible(rock_blank() && !items.empty());
  flush_->set_items(std::move(items));
  flush_->set_value(std::nullopt);
}

void LoadPane::take_over() {
  const auto charge = fire::charge(session_.connection, transfer_);
  if (!charge.ok()) return;
  const auto written = charge->cleaning ? results::take_flush_assay(session_.journal, transfer_)
                                        : results::take_lot_silver(session_.journal, transfer_);
  if (!written.ok()) emit said(sentence(written.error()));
}

Result<void> LoadPane::decide(const char* decision, const QString& reason) {
  return results::decide_run(session_.journal, load_.run, decision, reason.toStdString(), who_decides(session_));
}

void LoadPane::accept() {
  if (load_.outside()) return ask(tr("Why is it accepted although a control is outside?"), "accepted");
  if (const auto written = decide("accepted", {}); !written.ok()) emit said(sentence(written.error()));
}

void LoadPane::ask(const QString& label, const char* decision) {
  reason_->ask(label, [this, decision](const QString& reason) { return decide(decision, reason); });
}

void LoadPane::enter() { accept_->setFocus(Qt::OtherFocusReason); }

}  // namespace prillbook::ui
