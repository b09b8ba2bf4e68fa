// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/furnace/run_pane.h"

#include <QtWidgets/QHBoxLayout>
#include <QtWidgets/QLabel>
#include <QtWidgets/QLineEdit>
#include <QtWidgets/QVBoxLayout>

#include "core/custody/custody.h"
#include "core/fire/charge_record.h"
#include "core/history/fields.h"
#include "core/portions/portions.h"
#include "ui/furnace/temperature_chart.h"
#include "ui/kit/figures.h"
#include "ui/kit/form.h"
#include "ui/kit/press_button.h"
#include "ui/kit/record_fields.h"
#include "ui/kit/sentences.h"
#include "ui/kit/theme.h"

namespace prillbook::ui {
namespace {

namespace run_fields = history::fields::furnace_run;
namespace proof_fields = history::fields::proof;

QLabel* run_label(TextSize size, const char* tone) {
  auto* label = new QLabel;
  label->setFont(face(size));
  label->setProperty("tone", tone);
  label->setTextFormat(Qt::PlainText);
  label->setWordWrap(true);
  return label;
}

QString charge_number(Session& session, ChargeId id) {
  const auto held = fire::charge(session.connection, id);
  if (!held.ok()) return {};
  const auto portion = portions::portion(session.connection, held->portion);
  if (!portion.ok()) return {};
  const auto sample = custody::sample(session.connection, portion->sample);
  return sample.ok() ? QStringLiteral("%1/%2").arg(to_qt(sample->number)).arg(portion->number) : QString();
}

}  // namespace

RunPane::RunPane(Session& session, QWidget* parent)
    : QWidget(parent),
      session_(session),
      fields_(new RecordFields(session, history::Entity::furnace_run, this)),
      read_(new WholeField(tr("Read now, °C"))),
      chart_(new TemperatureChart),
      log_(run_label(TextSize::small, "quiet")),
      charges_(run_label(TextSize::body, "")),
      loss_(run_label(TextSize::small, "")),
      proofs_(new QWidget) {
  auto* column = new QVBoxLayout(this);
  column->setContentsMargins(0, 0, 0, 0);
  column->setSpacing(rhythm);
  auto* form = new Form(3);
  form->row({fields_->text(tr("Name of the run"), run_fields::name), fields_->time(tr("Loaded"), run_fields::began_at),
             fields_->time(tr("Drawn"), run_fields::ended_at)});
  form->wide(fields_->choice(tr("For"), run_fields::kind));
  form->row({fields_->whole(tr("Set, °C"), run_fields::set_c), read_, fields_->whole(tr("Places taken"), run_fields::places)});
  read_->set_read_only(session_.read_only());
  read_->set_hint(tr("Enter writes it with the time."));
  read_->on_commit([this](std::optional<std::int64_t> celsius) { return note(celsius); });
  column->addWidget(form);
  column->addWidget(chart_);
  column->addWidget(log_);
  column->addWidget(charges_);
  auto* rest = new Form(3);
  rest->row({fields_->text(tr("Remarks"), run_fields::remarks)});
  column->addWidget(rest);
  auto* proof_box = new QWidget;
  auto* proof_column = new QVBoxLayout(proof_box);
  proof_column->setContentsMargins(0, 0, 0, 0);
  proofs_column_ = new QVBoxLayout(proofs_);
  proofs_column_->setContentsMargins(0, 0, 0, 0);
  auto* more = new PressButton(tr("Add a proof"));
  more->setEnabled(!session_.read_only());
  connect(more, &QPushButton::clicked, this, &RunPane::add_proof);
  proof_column->addWidget(proofs_);
  proof_column->addWidget(more, 0, Qt::AlignLeft);
  proof_column->addWidget(loss_);
  column->addWidget(new Fold(tr("Proofs run alongside"), proof_box));
  column->addStretch();
}

void RunPane::show_run(FurnaceRunId run) {
  if (run != run_) read_->leave_record();
  run_ = run;
  refresh();
}

Result<void> RunPane::note(std::optional<std::int64_t> celsius) {
  if (!celsius || !run_) return {};
  const auto run = fire::furnace_run(session_.connection, run_);
  if (!run.ok()) return run.error();
  const auto noted = fire::note_temperature(session_.journal, {run_, {}, run->set_c, celsius, {}});
  if (!noted.ok()) return noted.error();
  // The field in hand is finished first; then it waits for the next reading.
  QMetaObject::invokeMethod(
      read_,
      [this] {
        read_->set_value(std::nullopt);
        read_->line()->setFocus(Qt::OtherFocusReason);
      },
      Qt::QueuedConnection);
  return {};
}

void RunPane::refresh() {
  const auto run = fire::furnace_run(session_.connection, run_);
  fields_->show(run.ok() ? run_.value : 0);
  if (!run.ok()) return;
  chart_->show_readings(run->readings);
  QStringList lines;
  for (const fire::RunReading& one : run->readings)
    if (one.remarks) lines << QStringLiteral("%1 %2").arg(time_text(one.read_at), to_qt(*one.remarks));
  log_->setText(lines.join(QLatin1Char('\n')));
  log_->setVisible(!lines.isEmpty());
  QStringList numbers;
  if (const auto charges = fire::charges_in(session_.connection, run_); charges.ok())
    for (const ChargeId id : *charges) numbers << charge_number(session_, id);
  charges_->setText(numbers.isEmpty() ? tr("No charge names this run yet: choose it at the charge.")
                                      : tr("In it: %1.").arg(numbers.join(QStringLiteral(", "))));
  show_proofs(*run);
}

void RunPane::show_proofs(const fire::FurnaceRun& run) {
  std::vector<RecordId> wanted;
  for (const fire::Proof& proof : run.proofs) wanted.push_back(proof.id.value);
  if (wanted != proofs_shown_) {
    proofs_shown_ = wanted;
    for (RecordFields* fields : proof_fields_) fields->deleteLater();
    proof_fields_.clear();
    while (QLayoutItem* item = proofs_column_->takeAt(0)) {
      if (QWidget* widget = item->widget()) widget->deleteLater();
      delete item;
    }
    for (const RecordId id : wanted) {
      auto* fields = new RecordFields(session_, history::Entity::proof, this);
      auto* form = new Form(5);
      form->row({fields->figure(tr("Gold in"), proof_fields::gold_in, "mg"),
                 fields->figure(tr("Silver in"), proof_fields::silver_in, "mg"),
                 fields->figure(tr("Lead"), proof_fields::lead, "g"), fields->figure(tr("Bead left"), proof_fields::bead, "mg"),
                 fields->figure(tr("Gold left"), proof_fields::gold_out, "mg")});
      fields->show(id);
      proof_fields_.push_back(fields);
      proofs_column_->addWidget(form);
    }
  }
  for (RecordFields* fields : proof_fields_) fields->refresh();
  const ProofLoss loss = run.loss();
  QStringList words;
  const DecimalMark mark = session_.writing.mark;
  if (loss.gold) words << tr("gold lost %1 %").arg(to_qt(fixed(loss.gold->in(unit::percent), 2, mark)));
  if (loss.silver) words << tr("silver lost %1 %").arg(to_qt(fixed(loss.silver->in(unit::percent), 2, mark)));
  loss_->setText(words.join(QStringLiteral(", ")));
}

void RunPane::add_proof() {
  if (const auto made = fire::add_proof(session_.journal, run_); !made.ok()) emit said(sentence(made.error()));
}

void RunPane::enter() { read_->setFocus(Qt::OtherFocusReason); }

}  // namespace prillbook::ui
