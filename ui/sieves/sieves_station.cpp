// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/sieves/sieves_station.h"

#include <QtCore/QSignalBlocker>
#include <QtWidgets/QHBoxLayout>
#include <QtWidgets/QLabel>
#include <QtWidgets/QVBoxLayout>
#include <algorithm>

#include "core/history/fields.h"
#include "core/summary/words_of_sizes.h"
#include "ui/findings/findings_panel.h"
#include "ui/kit/bench.h"
#include "ui/kit/figures.h"
#include "ui/kit/form.h"
#include "ui/kit/messages.h"
#include "ui/kit/press_button.h"
#include "ui/kit/record_fields.h"
#include "ui/kit/sentences.h"
#include "ui/kit/theme.h"
#include "ui/kit/waiting_list.h"
#include "ui/sieves/curve_panel.h"
#include "ui/sieves/sieve_lines.h"
#include "ui/sieves/start_form.h"

namespace prillbook::ui {
namespace {

namespace analysis_fields = history::fields::sieve_analysis;

constexpr int lines_width = 38 * rhythm;

QLabel* plain_words(const char* tone) {
  auto* label = new QLabel;
  label->setFont(face(TextSize::body));
  label->setProperty("tone", tone);
  label->setTextFormat(Qt::PlainText);
  label->setWordWrap(true);
  return label;
}

// A row is known by its portion, an analysis under its id with a minus.
WaitingRow row_of(const sieves::SieveLine& line, bool waits) {
  QString words = SievesStation::tr("to be sieved");
  if (line.analysis && waits) words = SievesStation::tr("begun, not all weighed");
  if (!waits)
    if (const auto at = parse_iso(line.when); at.ok()) words = SievesStation::tr("sieved %1").arg(date_text(*at));
  return {line.analysis ? -line.analysis.value : line.portion.value, to_qt(line.number), to_qt(line.mark), words,
          line.analysis && waits ? Urgency::soon : Urgency::usual};
}

}  // namespace

SievesStation::SievesStation(Session& session, QWidget* parent)
    : Station(parent),
      session_(session),
      list_(new WaitingList(tr("Waiting at Sieves"))),
      head_(new Headline),
      nothing_(plain_words("quiet")),
      start_(new StartForm(session)),
      fields_(new RecordFields(session, history::Entity::sieve_analysis, this)),
      lines_(new SieveLines(session)),
      loss_(plain_words("")),
      findings_(new FindingsPanel(session)),
      curve_(new CurvePanel(session)) {
  findings_->show_only({"sieve_loss", "sieve_sum_above_portion", "sieve_overload", "sieve_p80", "sieve_mixed_series",
                        "sieve_uneven", "sieve_not_weighed", "sieve_overdue"});
  auto* whole = new QVBoxLayout(this);
  whole->setContentsMargins(0, 0, 0, 0);
  whole->setSpacing(0);
  whole->addWidget(new Bench(list_, build_hand()), 1);
  whole->addWidget(hairline());
  auto* caution = new CautionLine(
      tr("Shaking dry rock through fine sieves raises silica dust, of lead ores lead: close the lid, work under draught, wear a "
         "fitted mask."),
      QStringLiteral("safety/sieves"));
  connect(caution, &CautionLine::more_wanted, this, [this](const QString& page) { emit guide_requested(page); });
  auto* foot = new QHBoxLayout;
  foot->setContentsMargins(3 * rhythm, rhythm / 2, 2 * rhythm, rhythm / 2);
  foot->addWidget(caution);
  whole->addLayout(foot);

  list_->set_empty_words(tr("Nothing waits here. A portion cut for “sieve” on a sample sheet does."));
  list_->read_from([this](int from, int count) { return waiting(from, count); });
  connect(list_, &WaitingList::taken, this,
          [this](RecordId id) { id < 0 ? take_analysis(SieveAnalysisId{-id}) : take_portion(PortionId{id}); });
  connect(list_, &WaitingList::opened, this, [this](RecordId) { analysis_ ? lines_->enter() : start_->enter(); });
  connect(start_, &StartForm::started, this, [this](SieveAnalysisId made) {
    take_analysis(made);
    lines_->enter();
  });
  connect(lines_, &SieveLines::typing, this, &SievesStation::show_live);
  connect(curve_, &CurvePanel::said, this, &SievesStation::said);
  connect(curve_, &CurvePanel::fractions_wanted, this, &SievesStation::make_fractions);
  refresh();
}

QWidget* SievesStation::build_hand() {
  auto* hand = new QWidget;
  auto* column = new QVBoxLayout(hand);
  column->setContentsMargins(0, 0, 0, 0);
  column->setSpacing(rhythm);
  auto* top = new QHBoxLayout;
  top->addWidget(head_, 1);
  auto* sheet = new PressButton(tr("Open its sheet"));
  connect(sheet, &QPushButton::clicked, this, [this] { emit open_requested({history::Entity::portion, portion_.value}); });
  top->addWidget(sheet, 0, Qt::AlignTop);
  column->addLayout(top);
  column->addWidget(hairline());
  column->addWidget(nothing_);
  column->addWidget(start_);
  hand_ = build_form();
  column->addWidget(hand_);
  column->addStretch();
  return hand;
}

QWidget* SievesStation::build_form() {
  auto* form = new QWidget;
  auto* columns = new QHBoxLayout(form);
  columns->setContentsMargins(0, 0, 0, 0);
  columns->setSpacing(3 * rhythm);
  auto* left = new QWidget;
  left->setFixedWidth(lines_width);
  auto* stack = new QVBoxLayout(left);
  stack->setContentsMargins(0, 0, 0, 0);
  stack->setSpacing(rhythm);
  stack->addWidget(lines_);
  stack->addWidget(loss_);
  stack->addWidget(findings_);
  balance_ = fields_->pick(tr("Balance"), analysis_fields::balance);
  auto* more = new Form(2);
  more->row(
      {fields_->choice(tr("Dry or wet"), analysis_fields::method), fields_->whole(tr("Minutes"), analysis_fields::minutes)});
  more->row({fields_->time(tr("Sieved"), analysis_fields::sieved_at), balance_});
  more->row({fields_->text(tr("Remarks"), analysis_fields::remarks)});
  more->row({fields_->text(tr("Spoiled, because"), analysis_fields::spoiled)});
  stack->addWidget(new Fold(tr("How it was sieved"), more));
  stack->addStretch();
  columns->addWidget(left);
  columns->addWidget(curve_, 1);
  return form;
}

StationPlace SievesStation::place(Session& session) {
  return {tr("Sieves"),
          Icon::sieves,
          [&session] { return int(sieves::count_waiting_to_sieve(session.connection).value_or(0)); },
          {history::Entity::sieve_analysis, history::Entity::sieve_cut},
          [&session] { return new SievesStation(session); }};
}

std::vector<WaitingRow> SievesStation::waiting(int from, int count) const {
  std::vector<WaitingRow> rows;
  const auto waits = sieves::waiting_to_sieve(session_.connection, from + count);
  if (waits.ok())
    for (const sieves::SieveLine& line : *waits) rows.push_back(row_of(line, true));
  const auto made = sieves::analyses_made(session_.connection, from + count);
  if (made.ok())
    for (const sieves::SieveLine& line : *made) rows.push_back(row_of(line, false));
  if (from >= int(rows.size())) return {};
  return {rows.begin() + from, rows.begin() + std::min(int(rows.size()), from + count)};
}

void SievesStation::take_portion(PortionId portion) {
  portion_ = portion;
  analysis_ = {};
  if (const auto made = sieves::analyses_of(session_.connection, portion); made.ok())
    for (const sieves::Analysis& one : *made)
      if (!one.spoiled) analysis_ = one.id;
  refresh();
}

void SievesStation::take_analysis(SieveAnalysisId id) {
  const auto held = sieves::analysis(session_.connection, id);
  if (!held.ok()) return;
  analysis_ = id;
  portion_ = held->portion;
  refresh();
}

void SievesStation::refresh() {
  list_->refresh();
  list_->take(analysis_ ? -analysis_.value : portion_.value);
  if (const auto balances = lab::balances(session_.connection); balances.ok()) {
    std::vector<PickField::Item> items;
    for (const lab::Balance& balance : *balances) items.push_back({balance.id.value, to_qt(balance.name)});
    balance_->set_items(std::move(items));
  }
  fields_->show(analysis_.value);
  nothing_->setVisible(!portion_);
  nothing_->setText(tr("Take a portion at the left. Sieve sizes, stacks and their dates of inspection are in Lab set-up."));
  start_->setVisible(portion_ && !analysis_);
  start_->show_portion(portion_);
  hand_->setVisible(bool(analysis_));
  show_head();
  if (!analysis_) return;
  if (const auto held = sieves::analysis(session_.connection, analysis_); held.ok()) {
    const QSignalBlocker not_typed(lines_);  // else everything is computed again for each line that is filled in
    lines_->show_analysis(*held);
  }
  show_live();
}

void SievesStation::show_head() {
  if (!portion_) return head_->set(tr("Sieves"), tr("a portion, a stack, a curve"));
  const auto portion = portions::portion(session_.connection, portion_);
  if (!portion.ok()) return head_->set({}, sentence(portion.error()));
  const auto sample = custody::sample(session_.connection, portion->sample);
  QString words = portion->mass ? text(as_typed(portion->mass)) : tr("not weighed");
  if (sample.ok()) words += QStringLiteral(" · ") + in_short(to_qt(sample->mark), 32);
  head_->set(sample.ok() ? QStringLiteral("%1/%2").arg(to_qt(sample->number)).arg(portion->number) : QString(), words);
}

void SievesStation::show_live() {
  const auto portion = portions::portion(session_.connection, portion_);
  const auto held = sieves::analysis(session_.connection, analysis_);
  if (!portion.ok() || !held.ok()) return;
  const auto record = results::load_sample_record(session_.connection, portion->sample);
  if (!record.ok()) return loss_->setText(sentence(record.error()));
  const results::SampleResult result = results::compute(*record);
  const sieves::Analysis typed = lines_->as_typed(*held);
  const results::SizeResult live = results::size_result(*record, typed, result.of_fractions);
  const std::vector<SieveRow> so_far = results::rows_so_far(*record, typed);
  lines_->show_result(live, so_far);
  loss_->setText(to_qt(summary::loss_words(live, session_.writing.mark)));
  loss_->setVisible(live.curve.has_value());
  curve_->show_size(*record, result, live, so_far);
  findings_->show_sample(record->sample.id);
}

void SievesStation::make_fractions() {
  const auto person = lab::person_by_initials(session_.connection, session_.journal.author());
  const auto made = sieves::make_fractions(session_.journal, analysis_, person.ok() ? person->id : PersonId{});
  emit said(made.ok() ? tr("%n portions were made of the sizes.", nullptr, int(made->size())) : sentence(made.error()));
}

void SievesStation::notebook_changed(const history::Written&) {
  if (analysis_ && !stands(session_, history::Entity::sieve_analysis, analysis_.value)) analysis_ = {};
  if (portion_ && !stands(session_, history::Entity::portion, portion_.value)) portion_ = {};
  refresh();
}

bool SievesStation::show_record(const RecordRef& wanted) {
  SieveAnalysisId id{wanted.entity == history::Entity::sieve_analysis ? wanted.record : 0};
  if (wanted.entity == history::Entity::sieve_cut) {
    const auto cut = history::load_record(session_.connection, wanted.entity, wanted.record);
    if (cut.ok()) id = cut->reference<SieveAnalysisId>(history::fields::sieve_cut::analysis);
  }
  if (!id || !sieves::analysis(session_.connection, id).ok()) return false;
  take_analysis(id);
  return true;
}

void SievesStation::enter() {
  if (!portion_) {
    const auto rows = waiting(0, 1);
    if (!rows.empty())
      rows.front().id < 0 ? take_analysis(SieveAnalysisId{-rows.front().id}) : take_portion(PortionId{rows.front().id});
  }
  if (analysis_)
    lines_->enter();
  else if (portion_)
    start_->enter();
  else
    list_->setFocus(Qt::OtherFocusReason);
}

}  // namespace prillbook::ui
