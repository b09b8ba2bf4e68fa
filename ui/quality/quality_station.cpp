// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/quality/quality_station.h"

#include <QtWidgets/QVBoxLayout>
#include <algorithm>
#include <utility>

#include "core/controls/insertion.h"
#include "core/controls/materials.h"
#include "core/history/fields.h"
#include "ui/kit/bench.h"
#include "ui/kit/figures.h"
#include "ui/kit/form.h"
#include "ui/kit/record_fields.h"
#include "ui/kit/sentences.h"
#include "ui/kit/theme.h"
#include "ui/kit/waiting_list.h"
#include "ui/quality/due_pane.h"
#include "ui/quality/load_pane.h"
#include "ui/quality/material_pane.h"
#include "ui/quality/pairs_pane.h"
#include "ui/quality/words.h"

namespace prillbook::ui {
namespace {

using Part = QualityStation::Part;

constexpr std::int64_t loads_listed = 30, loads_counted = 8;
constexpr RecordId part_count = 4;  // of the station: a row is known by its part and its record

RecordId row_id(Part part, RecordId record) { return record * part_count + RecordId(part) + 1; }

WaitingRow row_of_load(const results::RunControls& load) {
  QString words;
  for (const results::ControlResult& control : load.controls)
    if (control.verdict == results::ControlVerdict::outside && words.isEmpty())
      words = QStringLiteral("%1 %2").arg(role_word(control.role), to_qt(control.name));
  const Urgency urgency = load.standing == results::RunStanding::outside ? Urgency::now
                          : load.standing == results::RunStanding::held  ? Urgency::soon
                                                                         : Urgency::usual;
  return {row_id(Part::load, load.run.value), to_qt(load.name), words, standing_word(load), urgency};
}

WaitingRow row_of_material(const controls::Material& material) {
  return {row_id(Part::material, material.id.value),
          to_qt(material.name),
          {},
          material.used_up_at ? QualityStation::tr("%1, used up").arg(kind_word(material.kind)) : kind_word(material.kind),
          Urgency::usual};
}

int waiting_count(Session& session) {
  int count = results::count_runs_to_decide(session.connection, loads_counted).value_or(0);
  const auto settings = lab::settings(session.connection);
  if (!settings.ok()) return count;
  const auto due = controls::due_now(session.connection, *settings, session.journal.clock().now());
  if (!due.ok()) return count;
  for (const controls::Since& since : due->counts) count += since.ever && due->due(since);
  return count;
}

}  // namespace

QualityStation::QualityStation(Session& session, QWidget* parent)
    : Station(parent),
      session_(session),
      list_(new WaitingList(tr("Parts of quality"))),
      head_(new Headline),
      due_(new DuePane(session)),
      pairs_(new PairsPane(session)),
      load_(new LoadPane(session)),
      material_(new MaterialPane(session)) {
  auto* whole = new QVBoxLayout(this);
  whole->setContentsMargins(0, 0, 0, 0);
  whole->addWidget(new Bench(list_, build_hand()));
  list_->read_from([this](int from, int) { return from == 0 ? rows() : std::vector<WaitingRow>{}; });
  connect(list_, &WaitingList::taken, this, [this](RecordId id) { take(Part((id - 1) % part_count), (id - 1) / part_count); });
  connect(list_, &WaitingList::opened, this, &QualityStation::enter);
  connect(due_, &DuePane::made, this, [this](ControlMaterialId id) {
    take(Part::material, id.value);
    enter();
  });
  connect(pairs_, &PairsPane::open_requested, this, &QualityStation::open_requested);
  connect(load_, &LoadPane::open_requested, this, &QualityStation::open_requested);
  connect(load_, &LoadPane::said, this, &QualityStation::said);
  connect(material_, &MaterialPane::said, this, &QualityStation::said);
  choose_pane();
}

QWidget* QualityStation::build_hand() {
  auto* hand = new QWidget;
  auto* column = new QVBoxLayout(hand);
  column->setContentsMargins(0, 0, 0, 0);
  column->setSpacing(rhythm);
  column->addWidget(head_);
  column->addWidget(hairline());
  for (QWidget* pane : {static_cast<QWidget*>(due_), static_cast<QWidget*>(pairs_), static_cast<QWidget*>(load_),
                        static_cast<QWidget*>(material_)})
    column->addWidget(pane);
  column->addStretch();
  return hand;
}

StationPlace QualityStation::place(Session& session) {
  return {tr("Quality"),
          Icon::quality,
          [&session] { return waiting_count(session); },
          {history::Entity::control_material, history::Entity::run_decision},
          [&session] { return new QualityStation(session); }};
}

std::vector<WaitingRow> QualityStation::rows() const {
  std::vector<WaitingRow> list{{row_id(Part::due, 0), tr("What is due"), {}, tr("and a new control material"), Urgency::usual},
                               {row_id(Part::pairs, 0), tr("Duplicates"), {}, tr("pairs against their grade"), Urgency::usual}};
  for (const bool outside : {true, false})
    for (const results::RunControls& load : loads_)
      if ((load.standing == results::RunStanding::outside) == outside) list.push_back(row_of_load(load));
  if (const auto materials = controls::materials(session_.connection); materials.ok())
    for (const controls::Material& material : *materials) list.push_back(row_of_material(material));
  return list;
}

void QualityStation::read_loads() {
  loads_.clear();
  auto reader = results::TestReader::open(session_.connection);
  if (!reader.ok()) return;
  if (auto loads = results::runs_with_controls(*reader, loads_listed); loads.ok()) loads_ = *std::move(loads);
}

void QualityStation::take(Part part, RecordId record) {
  part_ = part;
  record_ = record;
  refresh();
}

void QualityStation::refresh() {
  stale_ = false;
  read_loads();
  list_->refresh();
  list_->take(row_id(part_, record_));
  show_part();
}

void QualityStation::choose_pane() {
  due_->setVisible(part_ == Part::due);
  pairs_->setVisible(part_ == Part::pairs);
  load_->setVisible(part_ == Part::load);
  material_->setVisible(part_ == Part::material);
}

void QualityStation::show_part() {
  choose_pane();
  if (part_ == Part::due) due_->refresh();
  if (part_ == Part::pairs) pairs_->refresh();
  if (part_ == Part::material) material_->show_material(ControlMaterialId{record_});
  const auto load = std::find_if(loads_.begin(), loads_.end(), [&](const auto& one) { return one.run.value == record_; });
  if (part_ == Part::load && load != loads_.end()) load_->show_load(*load);
  show_head();
}

void QualityStation::show_head() {
  switch (part_) {
    case Part::due: return head_->set(tr("Quality"), tr("what is due"));
    case Part::pairs: return head_->set(tr("Duplicates"), tr("how far two of one rock lie apart"));
    case Part::load:
      for (const results::RunControls& load : loads_)
        if (load.run.value == record_) head_->set(to_qt(load.name), standing_word(load));
      return;
    case Part::material:
      if (const auto held = controls::material(session_.connection, ControlMaterialId{record_}); held.ok())
        head_->set(to_qt(held->name), kind_word(held->kind));
      return;
  }
}

// Charts and loads read many tests: what nobody looks at is read when somebody does.
void QualityStation::notebook_changed(const history::Written&) {
  if (part_ == Part::material && !stands(session_, history::Entity::control_material, record_)) part_ = Part::due, record_ = 0;
  if (part_ == Part::load && !stands(session_, history::Entity::furnace_run, record_)) part_ = Part::due, record_ = 0;
  stale_ = true;
  if (isVisible()) refresh();
}

void QualityStation::showEvent(QShowEvent* event) {
  Station::showEvent(event);
  if (stale_) refresh();
}

bool QualityStation::show_record(const RecordRef& wanted) {
  if (wanted.entity == history::Entity::control_material) {
    if (!stands(session_, wanted.entity, wanted.record)) return false;
    take(Part::material, wanted.record);
    return true;
  }
  if (wanted.entity != history::Entity::run_decision) return false;
  const auto record = history::load_record(session_.connection, wanted.entity, wanted.record);
  if (!record.ok()) return false;
  take(Part::load, record->whole(history::fields::run_decision::run));
  return true;
}

// At first the load that has to be decided on.
void QualityStation::enter() {
  if (stale_) refresh();
  if (!std::exchange(entered_, true) && part_ == Part::due)
    for (const results::RunControls& load : loads_)
      if (load.standing == results::RunStanding::outside) {
        take(Part::load, load.run.value);
        break;
      }
  switch (part_) {
    case Part::due: return due_->enter();
    case Part::pairs: return pairs_->enter();
    case Part::load: return load_->enter();
    case Part::material: return material_->enter();
  }
}

}  // namespace prillbook::ui
