// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/furnace/furnace_station.h"

#include <QtWidgets/QHBoxLayout>
#include <QtWidgets/QLabel>
#include <QtWidgets/QVBoxLayout>
#include <algorithm>

#include "core/custody/custody.h"
#include "core/fire/design_record.h"
#include "core/fire/furnace_lists.h"
#include "core/history/fields.h"
#include "core/lab/lab.h"
#include "core/portions/portions.h"
#include "core/trays/filling.h"
#include "ui/findings/findings_panel.h"
#include "ui/furnace/charge_pane.h"
#include "ui/furnace/run_pane.h"
#include "ui/furnace/tray_pane.h"
#include "ui/kit/bench.h"
#include "ui/kit/figures.h"
#include "ui/kit/form.h"
#include "ui/kit/messages.h"
#include "ui/kit/press_button.h"
#include "ui/kit/record_fields.h"
#include "ui/kit/sentences.h"
#include "ui/kit/theme.h"
#include "ui/kit/waiting_list.h"

namespace prillbook::ui {
namespace {

// A row is known by its portion, a run under its id with a minus, a tray the same far below the runs.
constexpr RecordId below_all_runs = 1'000'000'000'000;

WaitingRow row_of_tray(const trays::Tray& tray) {
  const QString words = FurnaceStation::tr("tray of %1s, %2 of %3 taken")
                            .arg(choice_word(trays::name_of(tray.kind)))
                            .arg(tray.places.size())
                            .arg(tray.grid.size());
  return {-below_all_runs - tray.id.value, to_qt(tray.name), {}, words, Urgency::usual};
}

WaitingRow row_of_line(const fire::FurnaceLine& line) {
  QString words = FurnaceStation::tr("to be charged");
  if (line.charge && !line.complete) words = FurnaceStation::tr("its bead is not weighed");
  if (line.complete) {
    const auto at = parse_iso(line.when);
    words = at.ok() ? FurnaceStation::tr("fused %1").arg(date_text(*at)) : FurnaceStation::tr("fused");
  }
  return {line.portion.value, to_qt(line.number), to_qt(line.mark), words,
          line.charge && !line.complete ? Urgency::soon : Urgency::usual};
}

WaitingRow row_of_run(const fire::FurnaceRun& run) {
  const QString words = run.ended_at ? FurnaceStation::tr("drawn %1").arg(date_text(*run.ended_at))
                                     : FurnaceStation::tr("%1, not drawn yet").arg(choice_word(run.kind.value_or("")));
  return {-run.id.value, to_qt(run.name), {}, words, run.ended_at ? Urgency::usual : Urgency::soon};
}

}  // namespace

FurnaceStation::FurnaceStation(Session& session, QWidget* parent)
    : Station(parent),
      session_(session),
      list_(new WaitingList(tr("Waiting at the furnace"))),
      head_(new Headline),
      sheet_(new PressButton(tr("Open its sheet"))),
      nothing_(new QLabel),
      findings_(new FindingsPanel(session)),
      charge_(new ChargePane(session)),
      load_(new RunPane(session)),
      trays_(new TrayPane(session)) {
  findings_->show_only({"bead_moved", "button_out_of_range", "cupel_overloaded", "fusion_doubtful", "silver_to_gold_low",
                        "incomplete_parting", "blank_high", "lot_without_blank", "pot_after_rich", "pan_fire_fineness"});
  auto* whole = new QVBoxLayout(this);
  whole->setContentsMargins(0, 0, 0, 0);
  whole->setSpacing(0);
  whole->addWidget(new Bench(list_, build_hand()), 1);
  whole->addWidget(hairline());
  auto* caution = new CautionLine(tr("Litharge dust and lead fume poison slowly: draught, mask, clean hands. Moulds and cupels "
                                     "warm and dry before hot metal. "
                                     "Acid under a hood. Cupels and slag are lead waste."),
                                  QStringLiteral("safety/fire"));
  connect(caution, &CautionLine::more_wanted, this, [this](const QString& page) { emit guide_requested(page); });
  auto* foot = new QHBoxLayout;
  foot->setContentsMargins(3 * rhythm, rhythm / 2, 2 * rhythm, rhythm / 2);
  foot->addWidget(caution);
  whole->addLayout(foot);
  list_->set_empty_words(tr("Nothing waits here. A portion cut for “fire” on a sample sheet does."));
  list_->read_from([this](int from, int count) { return waiting(from, count); });
  connect(list_, &WaitingList::taken, this, &FurnaceStation::take_row);
  connect(list_, &WaitingList::opened, this, [this](RecordId) { enter(); });
  connect(trays_, &TrayPane::said, this, &FurnaceStation::said);
  connect(trays_, &TrayPane::sheet_wanted, this, &FurnaceStation::tray_sheet_requested);
  connect(trays_, &TrayPane::tray_wanted, this, [this](TrayId tray) {
    take_tray(tray);
    trays_->enter();
  });
  connect(charge_, &ChargePane::said, this, &FurnaceStation::said);
  connect(load_, &RunPane::said, this, &FurnaceStation::said);
  refresh();
}

QWidget* FurnaceStation::build_hand() {
  auto* hand = new QWidget;
  auto* column = new QVBoxLayout(hand);
  column->setContentsMargins(0, 0, 0, 0);
  column->setSpacing(rhythm);
  auto* top = new QHBoxLayout;
  top->addWidget(head_, 1);
  auto* fusion = new PressButton(tr("Begin a fusion"));
  auto* cupellation = new PressButton(tr("Begin a cupellation"));
  auto* tray = new PressButton(tr("Lay out a tray"));
  for (PressButton* button : {fusion, cupellation, tray}) button->setEnabled(!session_.read_only());
  connect(fusion, &QPushButton::clicked, this, [this] { begin_run("fusion"); });
  connect(cupellation, &QPushButton::clicked, this, [this] { begin_run("cupellation"); });
  tray->setShortcut(QKeySequence(Qt::ALT | Qt::Key_T));
  tray->setToolTip(tr("Alt+T"));
  connect(tray, &QPushButton::clicked, this, &FurnaceStation::lay_out_tray);
  connect(sheet_, &QPushButton::clicked, this, [this] { emit open_requested({history::Entity::portion, portion_.value}); });
  top->addWidget(sheet_, 0, Qt::AlignTop);
  column->addLayout(top);
  column->addWidget(hairline());
  auto* runs = new QHBoxLayout;
  runs->setSpacing(rhythm);
  for (PressButton* button : {fusion, cupellation, tray}) runs->addWidget(button);
  runs->addStretch();
  column->addLayout(runs);
  nothing_->setFont(face(TextSize::body));
  nothing_->setProperty("tone", "quiet");
  nothing_->setWordWrap(true);
  column->addWidget(nothing_);
  column->addWidget(findings_);
  column->addWidget(charge_);
  column->addWidget(load_);
  column->addWidget(trays_);
  column->addStretch();
  return hand;
}

StationPlace FurnaceStation::place(Session& session) {
  return {tr("Furnace"),
          Icon::furnace,
          [&session] { return int(fire::count_waiting_at_the_furnace(session.connection).value_or(0)); },
          {history::Entity::furnace_run, history::Entity::charge_design},
          [&session] { return new FurnaceStation(session); }};
}

std::vector<WaitingRow> FurnaceStation::waiting(int from, int count) const {
  std::vector<WaitingRow> rows;
  std::vector<WaitingRow> drawn;
  if (const auto runs = fire::furnace_runs(session_.connection); runs.ok())
    for (const fire::FurnaceRun& run : *runs) (run.ended_at ? drawn : rows).push_back(row_of_run(run));
  if (const auto waits = fire::waiting_at_the_furnace(session_.connection, from + count); waits.ok())
    for (const fire::FurnaceLine& line : *waits) rows.push_back(row_of_line(line));
  if (const auto in_use = trays::trays_in_use(session_.connection); in_use.ok())
    for (const trays::Tray& tray : *in_use) rows.push_back(row_of_tray(tray));
  rows.insert(rows.end(), drawn.begin(), drawn.begin() + std::min<std::ptrdiff_t>(std::ssize(drawn), 5));
  if (const auto made = fire::charges_made(session_.connection, from + count); made.ok())
    for (const fire::FurnaceLine& line : *made) rows.push_back(row_of_line(line));
  if (from >= int(rows.size())) return {};
  return {rows.begin() + from, rows.begin() + std::min(int(rows.size()), from + count)};
}

void FurnaceStation::take_portion(PortionId portion) {
  portion_ = portion;
  run_ = {};
  tray_ = {};
  refresh();
}

void FurnaceStation::take_run(FurnaceRunId run) {
  run_ = run;
  tray_ = {};
  refresh();
}

void FurnaceStation::take_tray(TrayId tray) {
  tray_ = tray;
  run_ = {};
  refresh();
}

void FurnaceStation::take_row(RecordId id) {
  if (id < -below_all_runs) return take_tray(TrayId{-id - below_all_runs});
  id < 0 ? take_run(FurnaceRunId{-id}) : take_portion(PortionId{id});
}

RecordId FurnaceStation::row_in_hand() const {
  if (tray_) return -below_all_runs - tray_.value;
  return run_ ? -run_.value : portion_.value;
}

void FurnaceStation::lay_out_tray() {
  const auto kind = trays::Kind::crucible;
  const auto made =
      trays::lay_out(session_.journal, {trays::usual_name(kind, session_.journal.clock().now()), kind, trays::Grid{}});
  if (!made.ok()) return emit said(sentence(made.error()));
  take_tray(*made);
  trays_->enter();
}

void FurnaceStation::begin_run(const char* kind) {
  const auto person = lab::person_by_initials(session_.connection, session_.journal.author());
  const auto made = fire::start_run(session_.journal, {{}, kind, person.ok() ? person->id : PersonId{}});
  if (!made.ok()) return emit said(sentence(made.error()));
  take_run(*made);
  load_->enter();
}

void FurnaceStation::refresh() {
  list_->refresh();
  list_->take(row_in_hand());
  const bool charge = portion_ && !run_ && !tray_;
  nothing_->setVisible(row_in_hand() == 0);
  nothing_->setText(tr("Take a portion at the left, or begin a run. Lots, pots and recipes are in Lab set-up."));
  for (QWidget* part : {static_cast<QWidget*>(charge_), static_cast<QWidget*>(findings_), static_cast<QWidget*>(sheet_)})
    part->setVisible(charge);
  load_->setVisible(bool(run_));
  trays_->setVisible(bool(tray_));
  if (tray_)
    trays_->show_tray(tray_);
  else if (run_)
    load_->show_run(run_);
  else if (portion_)
    charge_->show_portion(portion_);
  show_head();
}

void FurnaceStation::show_head() {
  if (tray_) {
    const auto tray = trays::tray(session_.connection, tray_);
    return head_->set(tray.ok() ? to_qt(tray->name) : QString(),
                      tray.ok() && tray->put_away_at ? tr("put away %1").arg(date_text(*tray->put_away_at)) : QString());
  }
  if (run_) {
    const auto run = fire::furnace_run(session_.connection, run_);
    return head_->set(run.ok() ? to_qt(run->name) : QString(), {});
  }
  if (!portion_) return head_->set(tr("Furnace"), tr("a charge, its button, its bead"));
  const auto portion = portions::portion(session_.connection, portion_);
  if (!portion.ok()) return head_->set({}, sentence(portion.error()));
  const auto sample = custody::sample(session_.connection, portion->sample);
  QString words = portion->mass ? text(as_typed(portion->mass)) : tr("not weighed");
  if (sample.ok()) words += QStringLiteral(" · ") + in_short(to_qt(sample->mark), 32);
  head_->set(sample.ok() ? QStringLiteral("%1/%2").arg(to_qt(sample->number)).arg(portion->number) : QString(), words);
  findings_->show_sample(portion->sample);
}

void FurnaceStation::notebook_changed(const history::Written&) {
  if (tray_ && !stands(session_, history::Entity::tray, tray_.value)) tray_ = {};
  if (run_ && !stands(session_, history::Entity::furnace_run, run_.value)) run_ = {};
  if (portion_ && !stands(session_, history::Entity::portion, portion_.value)) portion_ = {};
  refresh();
}

bool FurnaceStation::show_record(const RecordRef& wanted) {
  if (wanted.entity == history::Entity::furnace_run) {
    if (!fire::furnace_run(session_.connection, FurnaceRunId{wanted.record}).ok()) return false;
    take_run(FurnaceRunId{wanted.record});
    return true;
  }
  if (wanted.entity == history::Entity::tray) {
    if (!trays::tray(session_.connection, TrayId{wanted.record}).ok()) return false;
    take_tray(TrayId{wanted.record});
    return true;
  }
  if (wanted.entity == history::Entity::charge && tray_ && isVisible() && !session_.read_only()) {
    trays_->put({ChargeId{wanted.record}, {}, {}});
    return true;
  }
  if (wanted.entity != history::Entity::charge_design) return false;
  const auto record = history::load_record(session_.connection, wanted.entity, wanted.record);
  if (!record.ok()) return false;
  take_portion(record->reference<PortionId>(history::fields::charge_design::portion));
  return true;
}

void FurnaceStation::enter() {
  if (!row_in_hand()) {
    const auto rows = waiting(0, 1);
    if (!rows.empty()) take_row(rows.front().id);
  }
  if (tray_)
    trays_->enter();
  else if (run_)
    load_->enter();
  else if (portion_)
    charge_->enter();
  else
    list_->setFocus(Qt::OtherFocusReason);
}

}  // namespace prillbook::ui
