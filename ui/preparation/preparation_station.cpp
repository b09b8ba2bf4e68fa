// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/preparation/preparation_station.h"

#include <QtCore/QTimer>
#include <QtWidgets/QHBoxLayout>
#include <QtWidgets/QScrollArea>
#include <QtWidgets/QVBoxLayout>
#include <algorithm>

#include "core/milling/plans.h"
#include "ui/findings/findings_panel.h"
#include "ui/kit/bench.h"
#include "ui/kit/figures.h"
#include "ui/kit/form.h"
#include "ui/kit/messages.h"
#include "ui/kit/press_button.h"
#include "ui/kit/prompter.h"
#include "ui/kit/record_fields.h"
#include "ui/kit/sentences.h"
#include "ui/kit/theme.h"
#include "ui/kit/waiting_list.h"
#include "ui/preparation/composite_form.h"
#include "ui/preparation/enough_pane.h"
#include "ui/preparation/machine_pane.h"
#include "ui/preparation/mass_picture.h"
#include "ui/preparation/order_pane.h"
#include "ui/preparation/step_form.h"
#include "ui/preparation/words.h"

namespace prillbook::ui {
namespace {

constexpr std::int64_t most_waiting = 1000, most_prepared = 30;
constexpr int tallest_picture = 50 * rhythm;

}  // namespace

PreparationStation::PreparationStation(Session& session, QWidget* parent)
    : Station(parent),
      session_(session),
      machine_field_(new PickField(tr("Queue of the machine"))),
      list_(new WaitingList(tr("Waiting at Preparation"))),
      head_(new Headline),
      print_(new PressButton(tr("Print the picture"))),
      sheet_(new PressButton(tr("Open its sheet"))),
      picture_(new MassPicture),
      picture_place_(new QScrollArea),
      findings_(new FindingsPanel(session)),
      form_(new StepForm(session)),
      machine_pane_(new MachinePane(session)),
      order_(new OrderPane(session)),
      enough_(new EnoughPane(session)),
      composite_(new CompositeForm(session)),
      machine_fold_(new Fold(tr("The machine and its cleaning"), machine_pane_)),
      order_fold_(new Fold(tr("Crushing order"), order_)),
      enough_fold_(new Fold(tr("How much is enough"), enough_)),
      composite_fold_(new Fold(tr("Make a composite"), composite_)) {
  auto* hand = new QWidget;
  build_in_hand(hand);
  auto* left = new QWidget;
  auto* left_column = new QVBoxLayout(left);
  left_column->setContentsMargins(0, 0, 0, 0);
  left_column->setSpacing(0);
  auto* field_row = new QHBoxLayout;
  field_row->setContentsMargins(2 * rhythm, rhythm, 2 * rhythm, 0);
  field_row->addWidget(machine_field_);
  left_column->addLayout(field_row);
  left_column->addWidget(list_, 1);
  auto* caution = new CautionLine(
      tr("Crushing dry rock raises crystalline silica dust, of lead ores lead: draw it off or damp it, wear a fitted mask."),
      QStringLiteral("safety/preparation"));
  connect(caution, &CautionLine::more_wanted, this, [this](const QString& page) { emit guide_requested(page); });
  auto* whole = new QVBoxLayout(this);
  whole->setContentsMargins(0, 0, 0, 0);
  whole->setSpacing(0);
  whole->addWidget(new Bench(left, hand), 1);
  whole->addWidget(hairline());
  auto* foot = new QHBoxLayout;
  foot->setContentsMargins(3 * rhythm, rhythm / 2, 2 * rhythm, rhythm / 2);
  foot->addWidget(caution);
  whole->addLayout(foot);
  connect_parts();
  refresh_machines();
  take_machine(machine_);
  show_sample();
}

void PreparationStation::build_in_hand(QWidget* hand) {
  picture_place_->setWidget(picture_);
  picture_place_->setWidgetResizable(true);
  picture_place_->setFrameShape(QFrame::NoFrame);
  picture_place_->setFocusPolicy(Qt::NoFocus);
  auto* column = new QVBoxLayout(hand);
  column->setContentsMargins(0, 0, 0, 0);
  column->setSpacing(rhythm);
  auto* top = new QHBoxLayout;
  top->addWidget(head_, 1);
  top->addWidget(print_, 0, Qt::AlignTop);
  top->addWidget(sheet_, 0, Qt::AlignTop);
  column->addLayout(top);
  column->addWidget(hairline());
  column->addWidget(picture_place_);
  column->addWidget(findings_);
  column->addWidget(form_);
  column->addSpacing(rhythm);
  column->addWidget(machine_fold_);
  column->addWidget(order_fold_);
  column->addWidget(enough_fold_);
  column->addWidget(composite_fold_);
  column->addStretch();
}

void PreparationStation::connect_parts() {
  findings_->show_only({"step_loss", "open_tree", "small_portion", "poor_split", "uncleaned_machine", "carry_over",
                        "out_of_order", "moisture_differs", "moisture_not_written"});
  list_->set_empty_words(tr("Nothing waits to be prepared. A sample that came in and was not cut yet stands here."));
  list_->read_from([this](int from, int count) { return waiting(from, count); });
  machine_field_->on_commit([this](std::optional<std::int64_t> id) -> Result<void> {
    take_machine(MachineId{id.value_or(0)});
    return {};
  });
  connect(list_, &WaitingList::taken, this, [this](RecordId id) { take_sample(SampleId{id}); });
  connect(list_, &WaitingList::opened, this, [this](RecordId) { form_->enter(); });
  connect(composite_, &CompositeForm::made, this, &PreparationStation::take_sample);
  connect(picture_, &MassPicture::taken, this, &PreparationStation::take_reach);
  connect(picture_, &MassPicture::opened, this, &PreparationStation::open_record);
  connect(print_, &QPushButton::clicked, this, &PreparationStation::print_picture);
  connect(sheet_, &QPushButton::clicked, this, [this] { emit open_requested({history::Entity::sample, sample_.value}); });
}

StationPlace PreparationStation::place(Session& session) {
  return {tr("Preparation"),
          Icon::preparation,
          [&session] { return int(milling::count_waiting(session.connection).value_or(0)); },
          {history::Entity::step, history::Entity::cleaning, history::Entity::crushing_plan},
          [&session] { return new PreparationStation(session); }};
}

// What the plan says, then what came in after it was made.
std::vector<WaitingRow> PreparationStation::queue() const {
  std::vector<WaitingRow> rows;
  const auto waiting = milling::waiting_for(session_.connection, machine_, most_waiting);
  if (!waiting) return rows;
  using MaybePlan = std::optional<milling::Plan>;
  const auto plan = machine_ ? milling::plan_in_force(session_.connection, machine_) : Result<MaybePlan>(MaybePlan{});
  std::vector<std::pair<std::int64_t, WaitingRow>> placed;
  for (const milling::WaitingSample& one : *waiting) {
    const custody::SampleLine& line = one.line;
    WaitingRow row{line.id.value, to_qt(line.number), to_qt(line.mark), to_qt(line.client), Urgency::usual};
    const milling::PlanPlace* place = plan && *plan ? (*plan)->place_of(line.id) : nullptr;
    if (place && place->flushes > 0) {
      row.words = tr("flush %1 × %2 first").arg(place->flushes).arg(text(as_typed(place->flush_mass)));
      row.urgency = Urgency::soon;
    } else if (plan && *plan && !place) {
      row.words = tr("came after the order was made");
    }
    placed.push_back({place ? place->number : INT64_MAX, std::move(row)});
  }
  std::stable_sort(placed.begin(), placed.end(), [](const auto& a, const auto& b) { return a.first < b.first; });
  for (auto& one : placed) rows.push_back(std::move(one.second));
  // What went through stays at hand beneath.
  if (const auto prepared = milling::recently_prepared(session_.connection, most_prepared))
    for (const milling::PreparedLine& line : *prepared) {
      const bool waits = std::any_of(rows.begin(), rows.end(), [&](const WaitingRow& row) { return row.id == line.id.value; });
      if (!waits)
        rows.push_back({line.id.value, to_qt(line.number), to_qt(line.mark),
                        tr("prepared: %1").arg(step_done_word(line.last_step)), Urgency::usual});
    }
  return rows;
}

std::vector<WaitingRow> PreparationStation::waiting(int from, int count) const {
  const auto rows = queue();
  if (from >= int(rows.size())) return {};
  return {rows.begin() + from, rows.begin() + std::min(int(rows.size()), from + count)};
}

void PreparationStation::refresh_machines() {
  if (auto all = milling::machines(session_.connection)) machines_ = *std::move(all);
  std::vector<PickField::Item> items;
  for (const milling::Machine& machine : machines_)
    if (!machine.retired_at) items.push_back({machine.id.value, to_qt(machine.name)});
  machine_field_->setVisible(!items.empty());
  machine_field_->set_items(std::move(items));
  const auto usable = [](const milling::Machine& one) { return !one.retired_at; };
  const bool there =
      std::any_of(machines_.begin(), machines_.end(), [&](const auto& one) { return one.id == machine_ && usable(one); });
  if (there) return;
  const auto first = std::find_if(machines_.begin(), machines_.end(), usable);
  machine_ = first == machines_.end() ? MachineId{} : first->id;
}

void PreparationStation::take_machine(MachineId id) {
  machine_ = id;
  machine_field_->set_value(id ? std::optional(id.value) : std::nullopt);
  form_->set_machine(id);
  machine_pane_->show_machine(id);
  order_->show_machine(id);
  list_->refresh();
  list_->take(sample_.value);
}

void PreparationStation::take_sample(SampleId id) {
  if (sample_ != id) holder_ = {};
  sample_ = id;
  show_sample();
}

void PreparationStation::show_sample() {
  const auto record = sample_ ? results::load_sample_record(session_.connection, sample_)
                              : Result<results::SampleRecord>(Error{ErrorCode::not_found, "", "", {}});
  const bool there = record.ok();
  for (QWidget* part : {static_cast<QWidget*>(picture_place_), static_cast<QWidget*>(print_), static_cast<QWidget*>(sheet_),
                        static_cast<QWidget*>(enough_fold_), static_cast<QWidget*>(form_)})
    part->setVisible(there);
  findings_->show_sample(there ? sample_ : SampleId{});
  if (!there) {
    head_->set(tr("Preparation"), tr("take a sample from the left, or look at the machine below"));
    form_->show_nothing();
    enough_->show_nothing();
    picture_->set_flow({}, session_.writing.mark);
    return;
  }
  if (holder_ && !record->portion(holder_)) holder_ = {};
  show_head(*record);
  picture_->set_flow(
      milling::flow_of({record->sample.id, record->sample.number, record->sample.mass_received, record->portions, record->steps}),
      session_.writing.mark);
  picture_place_->setFixedHeight(std::min(picture_->sizeHint().height() + 2 * rhythm, tallest_picture));
  // Once the layout has settled: a tall picture begins with the source in sight, not with its uppermost branch.
  QTimer::singleShot(0, picture_, [this] { bring_reach_into_view(std::max(picture_->in_hand(), 0)); });
  form_->show_holder(*record, holder_, machines_);
  enough_->show_portion(*record, results::compute(*record), holder_);
}

void PreparationStation::show_head(const results::SampleRecord& record) {
  QString words = in_short(to_qt(record.sample.mark));
  if (record.sample.mass_received) words += QStringLiteral(" · ") + text(as_typed(record.sample.mass_received));
  if (record.sample.expected) words += QStringLiteral(" · ") + tr("expected %1").arg(choice_word(*record.sample.expected));
  for (const milling::Step& step : record.steps)
    if (const auto moisture = milling::moisture_of(step))
      words += tr(" · dried, %1 % moisture").arg(number_words(moisture->in(unit::percent), session_.writing.mark));
  head_->set(to_qt(record.sample.number), words);
}

void PreparationStation::bring_reach_into_view(int reach) {
  if (reach >= int(picture_->reaches().size())) return;
  const QRectF place = picture_->place_of(reach);
  picture_place_->ensureVisible(int(place.center().x()), int(place.center().y()), int(place.width() / 2) + 40, 60);
}

// The next step is on the rock of the reach in hand.
void PreparationStation::take_reach(int reach) {
  if (reach < 0) return;
  bring_reach_into_view(reach);
  const PortionId holder = picture_->reaches()[std::size_t(reach)].holder;
  if (holder == holder_) return;
  holder_ = holder;
  show_sample();
}

void PreparationStation::open_record(const RecordRef& record) {
  if (record.entity == history::Entity::step) {
    // A step has no page of its own: it stands in the thread of its sample.
    emit open_requested({history::Entity::sample, sample_.value});
    return;
  }
  emit open_requested(record);
}

void PreparationStation::print_picture() {
  const auto sample = custody::sample(session_.connection, sample_);
  if (!sample) return;
  const QString number = to_qt(sample->number);
  FileWish wish{FilePurpose::save, tr("Mass picture of %1").arg(number), tr("PDF (*.pdf)"), number + QStringLiteral(".pdf")};
  session_.prompter.choose_file(wish, [this, number](const QString& path) {
    const auto done = write_flow_pdf(picture_->reaches(), session_.writing.mark, tr("Mass picture of %1").arg(number), path);
    emit said(done ? tr("%1 written").arg(path) : file_sentence(done.error(), path));
  });
}

void PreparationStation::refresh() {
  composite_->refresh();
  refresh_machines();
  take_machine(machine_);
  show_sample();
}

void PreparationStation::notebook_changed(const history::Written& written) {
  if (sample_ && !stands(session_, history::Entity::sample, sample_.value)) sample_ = {};
  refresh();
  // The hand stays where the step was done: what comes next is done to the same rock.
  for (const history::Change& change : written.changes)
    if (change.entity == history::Entity::step || change.entity == history::Entity::portion) emit waiting_changed();
}

bool PreparationStation::show_record(const RecordRef& wanted) {
  store::Connection& connection = session_.connection;
  if (wanted.entity == history::Entity::step) {
    const auto step = milling::step(connection, StepId{wanted.record});
    if (!step) return false;
    take_sample(step->sample);
    holder_ = step->portion;
    show_sample();
    return true;
  }
  MachineId machine;
  if (wanted.entity == history::Entity::cleaning) {
    const auto cleaning = milling::cleaning(connection, CleaningId{wanted.record});
    if (!cleaning) return false;
    machine = cleaning->machine;
    machine_fold_->set_open(true);
  } else if (wanted.entity == history::Entity::crushing_plan) {
    const auto plan = milling::plan(connection, PlanId{wanted.record});
    if (!plan) return false;
    machine = plan->machine;
    order_fold_->set_open(true);
  } else {
    return false;
  }
  take_machine(machine);
  return true;
}

void PreparationStation::enter() { sample_ ? form_->enter() : list_->setFocus(); }

}  // namespace prillbook::ui
