// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/pan/pan_station.h"

#include <QtWidgets/QHBoxLayout>
#include <QtWidgets/QLabel>
#include <QtWidgets/QVBoxLayout>
#include <algorithm>

#include "core/gravity/panning.h"
#include "core/history/fields.h"
#include "core/lab/lab.h"
#include "core/results/sample_result.h"
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
#include "ui/pan/account_panel.h"
#include "ui/pan/panned_form.h"

namespace prillbook::ui {
namespace {

constexpr int form_width = 50 * rhythm;

// A row is known by its portion, a pan test under its id with a minus.
WaitingRow row_at_the_pan(const gravity::PanLine& line) {
  QString words = PanStation::tr("to be panned");
  if (line.test)
    if (const auto at = parse_iso(line.when); at.ok()) words = PanStation::tr("panned %1").arg(date_text(*at));
  return {line.test ? -line.test.value : line.portion.value, to_qt(line.number), to_qt(line.mark), words, Urgency::usual};
}

PersonId who_pans(Session& session) {
  const auto person = lab::person_by_initials(session.connection, session.journal.author());
  return person.ok() ? person->id : PersonId{};
}

}  // namespace

PanStation::PanStation(Session& session, QWidget* parent)
    : Station(parent),
      session_(session),
      list_(new WaitingList(tr("Waiting at the Pan"))),
      head_(new Headline),
      nothing_(new QLabel(tr("Take a portion at the left. A portion cut for “pan” on a sample sheet waits here."))),
      begin_(new PressButton(tr("Begin the pan test"), PressButton::Rank::main)),
      form_(new PannedForm(session)),
      findings_(new FindingsPanel(session)),
      account_(new AccountPanel(session)) {
  findings_->show_only(
      {"pan_gold_open", "mercury_not_told", "panned_coarser", "grind_above_top_size", "pan_above_fire", "gold_left_behind"});
  nothing_->setFont(face(TextSize::body));
  nothing_->setProperty("tone", "quiet");
  nothing_->setWordWrap(true);
  auto* whole = new QVBoxLayout(this);
  whole->setContentsMargins(0, 0, 0, 0);
  whole->setSpacing(0);
  whole->addWidget(new Bench(list_, build_hand()), 1);
  whole->addWidget(hairline());
  whole->addWidget(build_foot());

  list_->set_empty_words(tr("Nothing waits here. A portion cut for “pan” on a sample sheet does."));
  list_->read_from([this](int from, int count) { return waiting(from, count); });
  connect(list_, &WaitingList::taken, this,
          [this](RecordId id) { id < 0 ? take_test(PanTestId{-id}) : take_portion(PortionId{id}); });
  connect(list_, &WaitingList::opened, this,
          [this](RecordId) { test_ ? form_->enter() : begin_->setFocus(Qt::OtherFocusReason); });
  connect(begin_, &QPushButton::clicked, this, &PanStation::begin);
  connect(form_, &PannedForm::open_requested, this, &PanStation::open_requested);
  connect(form_, &PannedForm::said, this, &PanStation::said);
  refresh();
}

QWidget* PanStation::build_hand() {
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
  column->addWidget(begin_, 0, Qt::AlignLeft);
  hand_ = new QWidget;
  auto* columns = new QHBoxLayout(hand_);
  columns->setContentsMargins(0, 0, 0, 0);
  columns->setSpacing(3 * rhythm);
  form_->setMaximumWidth(form_width);
  columns->addWidget(form_, 3);
  auto* right = new QVBoxLayout;
  right->setSpacing(rhythm);
  right->addWidget(account_);
  right->addWidget(findings_);
  right->addStretch();
  columns->addLayout(right, 2);
  column->addWidget(hand_);
  column->addStretch();
  return hand;
}

QWidget* PanStation::build_foot() {
  auto* foot = new QWidget;
  auto* lines = new QVBoxLayout(foot);
  lines->setContentsMargins(3 * rhythm, rhythm / 2, 2 * rhythm, rhythm / 2);
  lines->setSpacing(rhythm / 2);
  dust_ = new CautionLine(tr("Pan wet and damp the tail before it is moved: its dust holds silica, of lead ores lead."),
                          QStringLiteral("safety/pan"));
  mercury_ = new CautionLine(
      tr("Amalgam is never heated in the open or in a cupel. Retorting and mercury waste are for licensed hands, by local law."),
      QStringLiteral("safety/mercury"));
  for (CautionLine* line : {dust_, mercury_}) {
    connect(line, &CautionLine::more_wanted, this, [this](const QString& page) { emit guide_requested(page); });
    lines->addWidget(line);
  }
  return foot;
}

StationPlace PanStation::place(Session& session) {
  return {tr("Pan"),
          Icon::pan,
          [&session] { return int(gravity::count_waiting_to_pan(session.connection).value_or(0)); },
          {history::Entity::panning},
          [&session] { return new PanStation(session); }};
}

std::vector<WaitingRow> PanStation::waiting(int from, int count) const {
  std::vector<WaitingRow> rows;
  for (const auto read : {&gravity::waiting_to_pan, &gravity::pan_tests_made}) {
    const auto lines = read(session_.connection, from + count, 0);
    if (!lines.ok()) continue;
    for (const gravity::PanLine& line : *lines) rows.push_back(row_at_the_pan(line));
  }
  if (from >= int(rows.size())) return {};
  return {rows.begin() + from, rows.begin() + std::min(int(rows.size()), from + count)};
}

void PanStation::take_portion(PortionId portion) {
  portion_ = portion;
  test_ = {};
  if (const auto made = gravity::pan_tests_of(session_.connection, portion); made.ok() && !made->empty()) test_ = made->back().id;
  refresh();
}

void PanStation::take_test(PanTestId id) {
  const auto held = gravity::pan_test(session_.connection, id);
  if (!held.ok()) return;
  test_ = id;
  portion_ = held->portion;
  refresh();
}

// The first pan is noted with the test: most tests have no other.
void PanStation::begin() {
  if (!portion_ || test_) return;
  const PersonId who = who_pans(session_);
  const auto made = session_.journal.record_for<PanTestId>("start pan test", [&](history::ChangeSet& set) -> Result<PanTestId> {
    PRILLBOOK_ASSIGN(const auto started, gravity::start_pan_test(set, {portion_, {}, who, {}}));
    PRILLBOOK_TRY(gravity::add_panning(set, {started.test, "first", {}, who, {}}));
    return started.test;
  });
  if (!made.ok()) {
    emit said(sentence(made.error()));
    return;
  }
  take_test(*made);
  form_->enter();
}

void PanStation::refresh() {
  list_->refresh();
  list_->take(test_ ? -test_.value : portion_.value);
  nothing_->setVisible(!portion_);
  begin_->setVisible(portion_ && !test_);
  begin_->setEnabled(!session_.read_only());
  hand_->setVisible(bool(test_));
  mercury_->setVisible(false);
  show_head();
  if (!test_) return;
  const auto portion = portions::portion(session_.connection, portion_);
  if (!portion.ok()) return;
  const auto record = results::load_sample_record(session_.connection, portion->sample);
  if (!record.ok()) return head_->set({}, sentence(record.error()));
  const results::SampleResult result = results::compute(*record);
  form_->show_test(*record, result, test_);
  account_->show_test(*record, result, test_);
  findings_->show_sample(record->sample.id);
  for (const results::PanEntry& entry : record->pan_tests)
    if (entry.test.id == test_) mercury_->setVisible(entry.test.bead_by == "amalgamated");
}

void PanStation::show_head() {
  if (!portion_) return head_->set(tr("Pan"), tr("a portion, its pannings, what was found"));
  const auto portion = portions::portion(session_.connection, portion_);
  if (!portion.ok()) return head_->set({}, sentence(portion.error()));
  const auto sample = custody::sample(session_.connection, portion->sample);
  QString words = portion->mass ? text(as_typed(portion->mass)) : tr("not weighed");
  if (sample.ok()) words += QStringLiteral(" · ") + in_short(to_qt(sample->mark), 32);
  head_->set(sample.ok() ? QStringLiteral("%1/%2").arg(to_qt(sample->number)).arg(portion->number) : QString(), words);
}

void PanStation::notebook_changed(const history::Written&) {
  if (test_ && !stands(session_, history::Entity::pan_test, test_.value)) test_ = {};
  if (portion_ && !stands(session_, history::Entity::portion, portion_.value)) portion_ = {};
  refresh();
}

bool PanStation::show_record(const RecordRef& wanted) {
  if (wanted.entity != history::Entity::panning) return false;
  const auto record = history::load_record(session_.connection, wanted.entity, wanted.record);
  if (!record.ok()) return false;
  const auto id = record->reference<PanTestId>(history::fields::panning::pan_test);
  if (!gravity::pan_test(session_.connection, id).ok()) return false;
  take_test(id);
  return true;
}

void PanStation::enter() {
  if (!portion_) {
    const auto rows = waiting(0, 1);
    if (!rows.empty()) rows.front().id < 0 ? take_test(PanTestId{-rows.front().id}) : take_portion(PortionId{rows.front().id});
  }
  if (test_)
    form_->enter();
  else if (portion_)
    begin_->setFocus(Qt::OtherFocusReason);
  else
    list_->setFocus(Qt::OtherFocusReason);
}

}  // namespace prillbook::ui
