// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/receiving/receiving_station.h"

#include <QtWidgets/QHBoxLayout>
#include <QtWidgets/QLabel>
#include <QtWidgets/QVBoxLayout>
#include <algorithm>

#include "core/custody/wanted.h"
#include "core/lab/lab.h"
#include "core/summary/custody_report.h"
#include "ui/kit/bench.h"
#include "ui/kit/form.h"
#include "ui/kit/ledger.h"
#include "ui/kit/messages.h"
#include "ui/kit/press_button.h"
#include "ui/kit/sentences.h"
#include "ui/kit/theme.h"
#include "ui/kit/waiting_list.h"
#include "ui/paper/paper.h"
#include "ui/photographs/photograph_strip.h"
#include "ui/receiving/consignment_form.h"
#include "ui/receiving/import_page.h"
#include "ui/receiving/sample_form.h"

namespace prillbook::ui {
namespace {

constexpr std::int64_t consignments_looked_at = 50;

constexpr std::int64_t kept_too_long_shown = 200;

QString waiting_words(const custody::WaitingSample& line, const Instant& now) {
  QStringList words;
  if (line.treatment == "refuse") words << ReceivingStation::tr("refuse it");
  if (line.treatment == "treat_apart") words << ReceivingStation::tr("treat it apart");
  if (line.condition) words << choice_word(*line.condition);
  if (line.due && line.treatment != "refuse")
    words << (line.due->utc_ms < now.utc_ms ? ReceivingStation::tr("overdue since %1") : ReceivingStation::tr("due %1"))
                 .arg(date_text(*line.due));
  words << to_qt(line.client);
  return words.join(QStringLiteral(" · "));
}

Urgency urgency_of(const custody::WaitingSample& line, const Instant& now) {
  if (line.condition == "leaking" || line.treatment == "refuse" || line.treatment == "treat_apart") return Urgency::now;
  if (line.due && line.due->utc_ms < now.utc_ms) return Urgency::soon;
  return line.condition == "torn" || line.condition == "wet" || line.condition == "mixed" ? Urgency::soon : Urgency::usual;
}

}  // namespace

ReceivingStation::ReceivingStation(Session& session, QWidget* parent)
    : Station(parent),
      session_(session),
      list_(new WaitingList(tr("Waiting at Receiving"))),
      head_(new Headline),
      fresh_(new PressButton(tr("New consignment"))),
      labels_(new PressButton(tr("Labels…"))),
      custody_(new PressButton(tr("Custody record of all…"))),
      sample_label_(new PressButton(QString())),
      form_(new ConsignmentForm(session)),
      fold_(new Fold(tr("Consignment"), form_)),
      pieces_(new Fold(tr("Pieces and seals"), form_->custody_part())),
      samples_part_(new QWidget),
      samples_(new Ledger(tr("Samples of this consignment"))),
      sample_(new SampleForm(session)),
      import_button_(new PressButton(tr("Import a list…"))),
      photographs_head_(new QLabel),
      photographs_(new PhotographStrip(session)) {
  auto* hand = new QWidget;
  auto* column = new QVBoxLayout(hand);
  column->setContentsMargins(0, 0, 0, 0);
  column->setSpacing(rhythm);
  column->addWidget(head_);
  column->addWidget(hairline());
  auto* actions = new QHBoxLayout;
  actions->setSpacing(rhythm);
  for (PressButton* action : {import_button_, labels_, custody_, fresh_}) actions->addWidget(action);
  actions->addStretch();
  column->addLayout(actions);
  // Entered first, so that Enter on the last field of the consignment leads to the first sample and not to this fold.
  column->addWidget(pieces_);
  column->insertWidget(column->count() - 1, fold_);
  column->addWidget(samples_part_);
  column->addStretch();
  auto* caution = new CautionLine(
      tr("Dry rock dust holds crystalline silica, dust of lead ores lead: damp it, wear a fitted mask, wash before eating. "
         "Ask what the rock went through: acid on cyanided tailings gives a deadly gas."),
      QStringLiteral("safety/receiving"));
  connect(caution, &CautionLine::more_wanted, this, [this](const QString& page) { emit guide_requested(page); });
  auto* part = new QVBoxLayout(samples_part_);
  part->setContentsMargins(0, 0, 0, 0);
  part->setSpacing(rhythm);
  part->addWidget(samples_);
  part->addSpacing(rhythm);
  part->addWidget(sample_);
  samples_->set_most_rows(3);
  column->insertWidget(column->count() - 1, build_papers());  // last, for Tab as well
  auto* whole = new QVBoxLayout(this);
  whole->setContentsMargins(0, 0, 0, 0);
  whole->setSpacing(0);
  bench_ = new Bench(list_, hand);
  whole->addWidget(bench_, 1);
  build_import();
  whole->addWidget(hairline());
  auto* foot = new QHBoxLayout;
  foot->setContentsMargins(3 * rhythm, rhythm / 2, 2 * rhythm, rhythm / 2);
  foot->addWidget(caution);
  whole->addLayout(foot);

  list_->set_empty_words(tr("Nothing waits here. A bag that comes in is logged at the right: name the client."));
  list_->read_from([this](int from, int count) { return waiting(from, count); });
  connect(list_, &WaitingList::taken, this,
          [this](RecordId id) { id < 0 ? take_consignment(ConsignmentId{-id}) : take_sample(SampleId{id}); });
  connect(list_, &WaitingList::opened, this, [this](RecordId id) { id < 0 ? sample_->enter() : sample_->enter_received_mass(); });
  connect(fresh_, &QPushButton::clicked, this, &ReceivingStation::new_consignment);
  connect(labels_, &QPushButton::clicked, this, [this] {
    emit labels_requested({history::Entity::consignment, consignment_.value});
  });
  connect(custody_, &QPushButton::clicked, this, &ReceivingStation::write_custody_of_all);
  connect(sample_label_, &QPushButton::clicked, this, [this] {
    emit labels_requested({history::Entity::sample, sample_->sample().value});
  });
  connect(form_, &ConsignmentForm::logged, this, [this](ConsignmentId id) {
    consignment_ = id;
    sample_->show_sample(id, {});
    refresh();
  });
  connect(samples_, &Ledger::taken, this, [this](RecordId id) { take_sample(SampleId{id}); });
  connect(samples_, &Ledger::opened, this, [this](RecordId) { sample_->enter(); });
  connect(sample_, &SampleForm::logged, this, [this](SampleId) { refresh(); });
  connect(sample_, &SampleForm::next_wanted, this, &ReceivingStation::next_sample);
  connect(sample_, &SampleForm::sweepings_wanted, this, &ReceivingStation::log_sweepings);
  connect(sample_, &SampleForm::custody_record_wanted, this, &ReceivingStation::write_custody_record);
  connect(sample_, &SampleForm::sheet_wanted, this, [this] {
    emit open_requested({history::Entity::sample, sample_->sample().value});
  });
  refresh();
}

// Labels and photographs of what is in hand: the sample, else its consignment.
QWidget* ReceivingStation::build_papers() {
  auto* part = new QWidget;
  auto* column = new QVBoxLayout(part);
  column->setContentsMargins(0, 2 * rhythm, 0, 0);
  column->setSpacing(rhythm);
  photographs_head_->setFont(face(TextSize::body, Weight::bold));
  photographs_head_->setTextFormat(Qt::PlainText);
  auto* top = new QHBoxLayout;
  top->addWidget(photographs_head_, 1);
  top->addWidget(sample_label_);
  column->addLayout(top);
  column->addWidget(photographs_);
  return part;
}

void ReceivingStation::show_papers() {
  const SampleId in_hand = sample_->sample();
  const auto sample =
      in_hand ? custody::sample(session_.connection, in_hand) : Result<custody::Sample>(Error{ErrorCode::not_found, "", "", {}});
  const auto held = consignment_ ? custody::consignment(session_.connection, consignment_)
                                 : Result<custody::Consignment>(Error{ErrorCode::not_found, "", "", {}});
  photographs_->parentWidget()->setVisible(held.ok());
  labels_->setVisible(held.ok());
  custody_->setVisible(held.ok());
  sample_label_->setVisible(sample.ok());
  if (sample.ok()) sample_label_->setText(tr("Label of %1…").arg(to_qt(sample->number)));
  if (held.ok()) photographs_head_->setText(tr("Photographs of %1").arg(to_qt(sample.ok() ? sample->number : held->number)));
  photographs_->show_owner(sample.ok() ? attachments::Owner{in_hand, {}} : attachments::Owner{{}, consignment_});
}

StationPlace ReceivingStation::place(Session& session) {
  return {tr("Receiving"),
          Icon::receiving,
          [&session] { return int(custody::count_uncut_samples(session.connection).value_or(0)); },
          {history::Entity::consignment},
          [&session] { return new ReceivingStation(session); }};
}

// Consignments without a sample stand first, under their id with a minus: nothing of them can be cut.
std::vector<WaitingRow> ReceivingStation::waiting(int from, int count) const {
  std::vector<WaitingRow> rows;
  const auto consignments = custody::consignments(session_.connection, consignments_looked_at);
  if (consignments.ok())
    for (const custody::ConsignmentLine& line : *consignments)
      if (line.samples == 0)
        rows.push_back({-line.id.value, to_qt(line.number), to_qt(line.client), tr("no sample entered yet"), Urgency::usual});
  const Instant now = session_.journal.clock().now();
  const auto samples = custody::waiting_samples(session_.connection, from + count);
  if (samples.ok())
    for (const custody::WaitingSample& line : *samples)
      rows.push_back({line.id.value, to_qt(line.number), to_qt(line.mark), waiting_words(line, now), urgency_of(line, now)});
  const auto kept = custody::retention_over(session_.connection, now, kept_too_long_shown);
  if (kept.ok())
    for (const custody::WaitingSample& line : *kept) {
      const bool listed = std::any_of(rows.begin(), rows.end(), [&](const WaitingRow& row) { return row.id == line.id.value; });
      if (!listed)
        rows.push_back({line.id.value, to_qt(line.number), to_qt(line.mark),
                        tr("kept until %1: return it or dispose of it").arg(date_text(*line.due)), Urgency::usual});
    }
  if (from >= int(rows.size())) return {};
  return {rows.begin() + from, rows.begin() + std::min(int(rows.size()), from + count)};
}

void ReceivingStation::new_consignment() { take_consignment({}); }

void ReceivingStation::take_consignment(ConsignmentId id) {
  sample_->show_sample(id, {});
  form_->show_consignment(id);
  consignment_ = id;
  fold_->set_open(true);
  refresh();
  form_->enter();
}

void ReceivingStation::take_sample(SampleId id) {
  const auto sample = custody::sample(session_.connection, id);
  if (!sample.ok()) return;
  if (sample->consignment != consignment_) form_->show_consignment(sample->consignment);
  fold_->set_open(false);
  consignment_ = sample->consignment;
  sample_->show_sample(consignment_, id);
  refresh();
}

void ReceivingStation::next_sample() {
  fold_->set_open(false);
  sample_->show_sample(consignment_, {});
  refresh();
  sample_->enter();
}

void ReceivingStation::log_sweepings() {
  const auto leaked = custody::sample(session_.connection, sample_->sample());
  if (!leaked.ok()) return;
  custody::NewSample sweepings;
  sweepings.consignment = leaked->consignment;
  sweepings.mark = to_core(tr("%1, sweepings").arg(to_qt(leaked->mark)));
  sweepings.kind = "sweepings";
  sweepings.place = leaked->place;
  sweepings.swept_from = leaked->id;
  const auto made = custody::log_sample(session_.journal, sweepings);
  if (!made.ok()) {
    emit said(sentence(made.error()));
    return;
  }
  take_sample(*made);
  sample_->enter_received_mass();
}

void ReceivingStation::write_custody_record() {
  const SampleId id = sample_->sample();
  const auto sample = custody::sample(session_.connection, id);
  if (!sample.ok()) return;
  save_custody(to_qt(sample->number),
               [this, id](const Instant& now) { return summary::custody_report_of(session_.connection, std::vector{id}, now); });
}

void ReceivingStation::write_custody_of_all() {
  const ConsignmentId id = consignment_;
  const auto held = custody::consignment(session_.connection, id);
  if (!held.ok()) return;
  save_custody(to_qt(held->number),
               [this, id](const Instant& now) { return summary::custody_report_of(session_.connection, id, now); });
}

void ReceivingStation::save_custody(const QString& number,
                                    const std::function<Result<summary::Report>(const Instant&)>& report_at) {
  session_.prompter.choose_file(
      {FilePurpose::save, tr("Write the custody record"), tr("PDF (*.pdf)"), tr("custody %1.pdf").arg(number)},
      [this, report_at](const QString& chosen) {
        const QString path =
            chosen.endsWith(QStringLiteral(".pdf"), Qt::CaseInsensitive) ? chosen : chosen + QStringLiteral(".pdf");
        const auto report = report_at(session_.journal.clock().now());
        if (!report.ok()) return emit said(sentence(report.error()));
        const auto written = paper::write_pdf(*report, to_core(path));
        emit said(written.ok() ? tr("Custody record written: %1").arg(path) : file_sentence(written.error(), path));
      });
}

void ReceivingStation::refresh() {
  list_->refresh();
  list_->take(sample_->sample() ? sample_->sample().value : consignment_ ? -consignment_.value : 0);
  show_samples();
  show_head();
  show_papers();
  if (!consignment_) fold_->set_open(true);
  samples_part_->setVisible(bool(consignment_));
  pieces_->setVisible(bool(consignment_));
}

void ReceivingStation::show_samples() {
  std::vector<LedgerRow> rows;
  using Samples = std::vector<custody::Sample>;
  const auto samples = consignment_ ? custody::samples_of(session_.connection, consignment_) : Result<Samples>(Samples{});
  if (samples.ok())
    for (const custody::Sample& sample : *samples) {
      const QString kind = sample.kind ? choice_word(*sample.kind) : QString();
      const QString condition = sample.condition ? choice_word(*sample.condition) : QString();
      const QString words = kind.isEmpty() || condition.isEmpty() ? kind + condition : kind + QStringLiteral(", ") + condition;
      rows.push_back({sample.id.value, sample.swept_from ? 1 : 0, to_qt(sample.number), to_qt(sample.mark),
                      as_typed(sample.mass_received), true, words});
    }
  samples_->setVisible(!rows.empty());
  samples_->set_rows(std::move(rows));
  samples_->take(sample_->sample().value);
}

void ReceivingStation::show_head() {
  const auto held = consignment_ ? custody::consignment(session_.connection, consignment_)
                                 : Result<custody::Consignment>(Error{ErrorCode::not_found, "", "", {}});
  fold_->button()->setVisible(held.ok());
  fresh_->setVisible(held.ok() && !session_.read_only());
  import_button_->setVisible(held.ok() && !session_.read_only());
  if (!held.ok()) return head_->set(tr("New consignment"), tr("what arrived together, from one client, by one carrier"));
  const auto client = lab::client(session_.connection, held->client);
  QString words = client.ok() ? in_short(to_qt(client->name)) : QString();
  words += QStringLiteral(" · ") + date_text(held->arrived);
  if (held->carrier) words += tr(" · by %1").arg(in_short(to_qt(*held->carrier), 20));
  if (held->pieces_found && held->pieces_declared)
    words += tr(" · %1 of %2 pieces").arg(*held->pieces_found).arg(*held->pieces_declared);
  head_->set(to_qt(held->number), words);
}

void ReceivingStation::notebook_changed(const history::Written&) {
  if (consignment_ && !stands(session_, history::Entity::consignment, consignment_.value)) {
    sample_->show_sample({}, {});
    form_->show_consignment({});
    consignment_ = {};
    show_import(false);
  } else if (sample_->sample() && !stands(session_, history::Entity::sample, sample_->sample().value)) {
    sample_->show_sample(consignment_, {});
  }
  form_->refresh();
  sample_->refresh();
  refresh();
}

bool ReceivingStation::show_record(const RecordRef& wanted) {
  if (wanted.entity != history::Entity::consignment) return false;
  if (!custody::consignment(session_.connection, ConsignmentId{wanted.record}).ok()) return false;
  take_consignment(ConsignmentId{wanted.record});
  return true;
}

void ReceivingStation::enter() {
  if (!import_->isHidden()) return import_->table()->setFocus(Qt::OtherFocusReason);
  consignment_ ? sample_->enter() : form_->enter();
}

}  // namespace prillbook::ui
