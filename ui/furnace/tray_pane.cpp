// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/furnace/tray_pane.h"

#include <QtGui/QKeyEvent>
#include <QtWidgets/QHBoxLayout>
#include <QtWidgets/QLabel>
#include <QtWidgets/QLineEdit>
#include <QtWidgets/QToolButton>
#include <QtWidgets/QVBoxLayout>

#include "core/fire/runs.h"
#include "core/history/fields.h"
#include "core/trays/filling.h"
#include "ui/furnace/tray_grid.h"
#include "ui/kit/figures.h"
#include "ui/kit/form.h"
#include "ui/kit/press_button.h"
#include "ui/kit/reason_line.h"
#include "ui/kit/record_fields.h"
#include "ui/kit/sentences.h"
#include "ui/kit/theme.h"

namespace prillbook::ui {
namespace {

namespace tray_columns = history::fields::tray;
constexpr std::int64_t most_filled = 200;
constexpr int shifts_shown = 12;

QLabel* tray_label(TextSize size, const char* tone) {
  auto* label = new QLabel;
  label->setFont(face(size));
  label->setProperty("tone", tone);
  label->setTextFormat(Qt::PlainText);
  label->setWordWrap(true);
  return label;
}

QString words_of_shift(const trays::Shift& shift) {
  QString words;
  switch (shift.kind) {
    case trays::ShiftKind::moved: words = TrayPane::tr("%1 went to %2").arg(shift.from).arg(shift.to); break;
    case trays::ShiftKind::swapped: words = TrayPane::tr("%1 and %2 changed places").arg(shift.from).arg(shift.to); break;
    case trays::ShiftKind::cleared: words = TrayPane::tr("%1 was taken off").arg(shift.from); break;
    case trays::ShiftKind::put_back: words = TrayPane::tr("%1 was put back").arg(shift.from); break;
  }
  if (shift.why) words += QStringLiteral(": ") + to_qt(*shift.why);
  return QStringLiteral("%1 %2  %3").arg(date_time_text(shift.when), to_qt(shift.who), words);
}

}  // namespace

TrayPane::TrayPane(Session& session, QWidget* parent)
    : QWidget(parent),
      session_(session),
      fields_(new RecordFields(session, history::Entity::tray, this)),
      rows_(new WholeField(tr("Rows"), 1)),
      columns_(new WholeField(tr("Positions of a row"), 1)),
      run_(new PickField(tr("Run"))),
      grid_(new TrayGrid),
      at_(new WholeField(tr("Position"), 1)),
      thing_(new TextField(tr("Stands there"))),
      to_(new WholeField(tr("Goes to position"), 1)),
      reason_(new ReasonLine),
      place_words_(tray_label(TextSize::small, "quiet")),
      ways_(new QWidget),
      fill_(new PressButton(QString())),
      off_(new PressButton(tr("Take it off"))),
      sheet_(new PressButton(tr("Print sheet"))),
      away_(new PressButton(tr("Put away"))),
      to_moulds_(new PressButton(tr("On to moulds"))),
      to_cupels_(new PressButton(tr("On to cupels"))),
      to_beads_(new PressButton(tr("On to the balance"))),
      no_shifts_(tray_label(TextSize::small, "quiet")) {
  auto* column = new QVBoxLayout(this);
  column->setContentsMargins(0, 0, 0, 0);
  column->setSpacing(rhythm);
  build_entry(column);
  column->addWidget(grid_);
  column->addWidget(reason_);
  build_ways(column);
  build_head(column);
  build_story(column);
  column->addStretch();
  for (QWidget* part : std::initializer_list<QWidget*>{fill_, off_, away_, to_moulds_, to_cupels_, to_beads_})
    part->setEnabled(!session_.read_only());
  for (Field* field : std::initializer_list<Field*>{rows_, columns_, run_, thing_, to_})
    field->set_read_only(session_.read_only());
  const std::vector<Field*>& own = fields_->all();  // name, kind, remarks
  QWidget* before = at_->line();
  for (QWidget* next : std::initializer_list<QWidget*>{
           thing_->line(), to_->line(), off_, grid_, reason_->field()->line(), fill_, to_moulds_, to_cupels_, to_beads_, sheet_,
           away_, own[0]->editor(), rows_->line(), columns_->line(), run_->line(), own[1]->editor(), own[2]->editor()}) {
    setTabOrder(before, next);
    before = next;
  }
}

void TrayPane::build_entry(QVBoxLayout* column) {
  auto* entry = new QHBoxLayout;
  entry->setSpacing(3 * rhythm);
  constexpr int position_width = 9 * rhythm, move_width = 16 * rhythm, name_width = 36 * rhythm;
  at_->setFixedWidth(position_width);
  to_->setFixedWidth(move_width);
  thing_->setFixedWidth(name_width);
  thing_->set_hint(tr("26-0003/2, or a control in words: rock blank"));
  entry->addWidget(at_);
  entry->addWidget(thing_);
  entry->addWidget(to_);
  entry->addWidget(off_, 0, Qt::AlignVCenter);
  entry->addStretch();
  column->addLayout(entry);
  column->addWidget(place_words_);
  at_->on_commit([this](std::optional<std::int64_t> position) -> Result<void> {
    if (!position) return {};
    PRILLBOOK_ASSIGN(const trays::Tray held, trays::tray(session_.connection, tray_));
    PRILLBOOK_TRY(held.check_position(*position));
    take(*position);
    return {};
  });
  thing_->on_commit([this](const std::optional<std::string>& words) { return words ? place_typed(*words) : Result<void>{}; });
  to_->on_commit([this](std::optional<std::int64_t> to) { return to ? move_to(*to) : Result<void>{}; });
  connect(thing_, &Field::committed, this,
          [this] { QMetaObject::invokeMethod(this, &TrayPane::after_write, Qt::QueuedConnection); });
  connect(to_, &Field::committed, this, [this] {
    QMetaObject::invokeMethod(
        to_, [this] { to_->set_value(std::nullopt); }, Qt::QueuedConnection);
  });
  connect(off_, &QPushButton::clicked, this, &TrayPane::ask_take_off);
  connect(grid_, &TrayGrid::taken, this, [this](qint64 position) { take(position); });
  connect(grid_, &TrayGrid::entered, this, [this] { thing_->line()->setFocus(Qt::OtherFocusReason); });
  connect(grid_, &TrayGrid::wanted, this, [this](const QChar& key) {
    thing_->line()->setFocus(Qt::OtherFocusReason);
    thing_->line()->insert(key);
  });
  for (ReasonLine* line : {reason_}) {
    connect(line, &ReasonLine::given, this, [this] { thing_->line()->setFocus(Qt::OtherFocusReason); });
    connect(line, &ReasonLine::closed, this, [this] { thing_->line()->setFocus(Qt::OtherFocusReason); });
  }
  thing_->line()->installEventFilter(this);
}

void TrayPane::build_ways(QVBoxLayout* column) {
  auto* row = new QHBoxLayout(ways_);
  row->setContentsMargins(0, 0, 0, 0);
  row->setSpacing(rhythm);
  for (PressButton* button : {fill_, to_moulds_, to_cupels_, to_beads_}) row->addWidget(button);
  row->addWidget(sheet_);
  row->addStretch();
  row->addWidget(away_);
  column->addWidget(ways_);
  connect(fill_, &QPushButton::clicked, this, &TrayPane::fill);
  connect(to_moulds_, &QPushButton::clicked, this, [this] { carry_on(trays::Kind::mould); });
  connect(to_cupels_, &QPushButton::clicked, this, [this] { carry_on(trays::Kind::cupel); });
  connect(to_beads_, &QPushButton::clicked, this, [this] { carry_on(trays::Kind::bead); });
  connect(sheet_, &QPushButton::clicked, this, [this] { emit sheet_wanted(tray_); });
  connect(away_, &QPushButton::clicked, this, &TrayPane::put_away);
}

void TrayPane::build_head(QVBoxLayout* column) {
  fields_->write_by(tray_columns::kind,
                    [this](RecordId id, const history::Value& value, const RecordFields::Why&) -> Result<void> {
                      const auto* word = std::get_if<std::string>(&value);
                      const auto kind = trays::find_kind(word ? *word : std::string());
                      return kind ? trays::set_kind(session_.journal, TrayId{id}, *kind) : Result<void>{};
                    });
  auto* form = new Form(4);
  form->row({fields_->text(tr("Name of the tray"), tray_columns::name), rows_, columns_, run_});
  form->wide(fields_->choice(tr("It holds"), tray_columns::kind));
  form->row({fields_->text(tr("Remarks"), tray_columns::remarks)});
  column->addWidget(form);
  rows_->on_commit([this](std::optional<std::int64_t> count) { return set_side(&trays::Grid::rows, count); });
  columns_->on_commit([this](std::optional<std::int64_t> count) { return set_side(&trays::Grid::columns, count); });
  rows_->set_hint(tr("1: a numbered row"));
  run_->on_commit([this](std::optional<std::int64_t> run) {
    return trays::load_into(session_.journal, tray_, FurnaceRunId{run.value_or(0)});
  });
}

void TrayPane::build_story(QVBoxLayout* column) {
  auto* box = new QWidget;
  auto* whole = new QVBoxLayout(box);
  whole->setContentsMargins(0, 0, 0, 0);
  no_shifts_->setText(tr("Nothing was moved on it."));
  whole->addWidget(no_shifts_);
  shifts_column_ = new QVBoxLayout;
  shifts_column_->setSpacing(0);
  whole->addLayout(shifts_column_);
  auto* fold = new Fold(tr("What was moved"), box);
  fold->set_open(true);
  column->addWidget(fold);
}

void TrayPane::show_tray(TrayId tray) {
  if (tray != tray_) {
    reason_->close();
    for (Field* field : std::initializer_list<Field*>{at_, thing_, to_, rows_, columns_, run_}) field->leave_record();
    position_ = 1;
    if (const auto held = trays::tray(session_.connection, tray); held.ok()) position_ = held->first_free().value_or(1);
  }
  tray_ = tray;
  refresh();
}

void TrayPane::refresh() {
  const auto held = trays::tray(session_.connection, tray_);
  fields_->show(held.ok() ? tray_.value : 0);
  if (!held.ok()) return;
  rows_->set_value(held->grid.rows);
  columns_->set_value(held->grid.columns);
  if (!held->grid.holds(position_)) position_ = 1;
  fill_runs(*held);
  show_grid(*held);
  show_place();
  show_ways(*held);
  show_shifts();
}

void TrayPane::fill_runs(const trays::Tray& tray) {
  run_->setVisible(tray.kind == trays::Kind::crucible || tray.kind == trays::Kind::cupel);
  const std::string kind = tray.kind == trays::Kind::crucible ? "fusion" : "cupellation";
  std::vector<PickField::Item> items;
  if (const auto runs = fire::furnace_runs(session_.connection); runs.ok())
    for (const fire::FurnaceRun& run : *runs)
      if (!run.kind || *run.kind == kind) items.push_back({run.id.value, to_qt(run.name)});
  run_->set_items(std::move(items));
  run_->set_value(tray.run ? std::optional(tray.run.value) : std::nullopt);
}

void TrayPane::show_grid(const trays::Tray& tray) {
  std::vector<TrayCell> cells(std::size_t(tray.grid.size()));
  for (const trays::Place& place : tray.places) {
    const auto name = trays::called(session_.connection, place.thing);
    if (tray.grid.holds(place.position))
      cells[std::size_t(place.position - 1)] = {name.ok() ? to_qt(name->label) : QStringLiteral("?"),
                                                !place.thing.control.empty()};
  }
  grid_->set_tray(tray.kind, tray.grid, std::move(cells));
  grid_->take(position_);
}

// What stands on the position in hand, with the mark of its sample.
void TrayPane::show_place() {
  at_->set_value(position_);
  const auto held = trays::tray(session_.connection, tray_);
  const trays::Place* place = held.ok() ? held->at(position_) : nullptr;
  QString words = tr("Position %1 is empty.").arg(position_);
  if (place) {
    const auto name = trays::called(session_.connection, place->thing);
    words = name.ok() ? tr("Position %1: %2").arg(position_).arg(to_qt(name->label)) : QString();
    if (name.ok() && !name->mark.empty()) words += QStringLiteral(" · ") + in_short(to_qt(name->mark), 40);
    if (name.ok() && name->portion_mass) words += QStringLiteral(" · ") + text(as_typed(name->portion_mass));
    if (!place->earlier.empty()) words += tr(" · put down on %1").arg(place->first_position());
  }
  place_words_->setText(words);
  to_->setVisible(place);
  off_->setVisible(place);
}

void TrayPane::show_ways(const trays::Tray& tray) {
  const auto waiting = trays::without_place(session_.connection, tray.kind, most_filled);
  const int count = waiting.ok() ? int(waiting->size()) : 0;
  fill_->setVisible(count > 0 && !tray.put_away_at);
  fill_->setText(tr("Place %1 waiting").arg(count));
  const bool something = !tray.places.empty();
  to_moulds_->setVisible(something && tray.kind < trays::Kind::mould);
  to_cupels_->setVisible(something && tray.kind < trays::Kind::cupel);
  to_beads_->setVisible(something && tray.kind == trays::Kind::cupel);
  away_->setText(tray.put_away_at ? tr("Use again") : tr("Put away"));
}

void TrayPane::show_shifts() {
  while (QLayoutItem* item = shifts_column_->takeAt(0)) {
    if (QWidget* widget = item->widget()) widget->hide(), widget->deleteLater();
    delete item;
  }
  const auto shifts = trays::shifts_of(session_.connection, tray_);
  const auto list = shifts.ok() ? *shifts : std::vector<trays::Shift>{};
  no_shifts_->setVisible(list.empty());
  for (int i = int(list.size()) - 1, shown = 0; i >= 0 && shown < shifts_shown; --i, ++shown) {
    const trays::Shift& shift = list[std::size_t(i)];
    auto* line = new QWidget;
    auto* row = new QHBoxLayout(line);
    row->setContentsMargins(0, 0, 0, 0);
    row->setSpacing(2 * rhythm);
    auto* words = tray_label(TextSize::small, "");
    words->setText(words_of_shift(shift));
    row->addWidget(words, 1);
    const bool can_be_taken_back = shift.kind == trays::ShiftKind::moved || shift.kind == trays::ShiftKind::swapped;
    if (can_be_taken_back && !session_.read_only()) {
      auto* back = new QToolButton;
      back->setText(tr("take back"));
      back->setFont(face(TextSize::small));
      back->setFocusPolicy(Qt::TabFocus);
      back->setAccessibleName(tr("Take back: %1").arg(words->text()));
      connect(back, &QToolButton::clicked, this, [this, shift] { ask_take_back(shift); });
      row->addWidget(back);
    }
    shifts_column_->addWidget(line);
  }
}

void TrayPane::take(std::int64_t position) {
  position_ = position;
  grid_->take(position);
  thing_->leave_record();
  to_->leave_record();
  show_place();
}

Result<void> TrayPane::place_typed(const std::string& words) {
  PRILLBOOK_ASSIGN(const trays::Thing thing, trays::thing_called(session_.connection, words));
  const auto placed = trays::place(session_.journal, tray_, position_, thing);
  if (!placed.ok()) return placed.error();
  return {};
}

// The next free position is in hand; from the front where there is none behind.
void TrayPane::after_write() {
  thing_->set_value(std::nullopt);
  const auto held = trays::tray(session_.connection, tray_);
  if (!held.ok()) return;
  auto next = held->first_free(position_);
  if (!next) next = held->first_free();
  take(next.value_or(position_));
  thing_->line()->setFocus(Qt::OtherFocusReason);
}

void TrayPane::put(const trays::Thing& thing) {
  const auto placed = trays::place(session_.journal, tray_, position_, thing);
  if (!placed.ok()) return thing_->show_error(placed.error());
  after_write();
}

// Empty: it goes there. Taken: the two change places. The reason is asked for; nothing is written without one.
Result<void> TrayPane::move_to(std::int64_t position) {
  PRILLBOOK_ASSIGN(const trays::Tray held, trays::tray(session_.connection, tray_));
  PRILLBOOK_TRY(held.check_position(position));
  if (position == position_) return {};
  const bool swapping = held.at(position);
  const std::int64_t from = position_;
  QMetaObject::invokeMethod(
      this,
      [this, from, position, swapping] {
        reason_->ask(swapping ? tr("Why did %1 and %2 change places?").arg(from).arg(position)
                              : tr("Why does %1 go to %2?").arg(from).arg(position),
                     [this, from, position, swapping](const QString& why) {
                       return swapping ? trays::swap(session_.journal, tray_, from, position, to_core(why))
                                       : trays::move(session_.journal, tray_, from, position, to_core(why));
                     });
      },
      Qt::QueuedConnection);
  return {};
}

Result<void> TrayPane::set_side(std::int64_t trays::Grid::*side, std::optional<std::int64_t> count) {
  PRILLBOOK_ASSIGN(const trays::Tray held, trays::tray(session_.connection, tray_));
  trays::Grid grid = held.grid;
  grid.*side = count.value_or(1);
  return trays::set_grid(session_.journal, tray_, grid);
}

void TrayPane::ask_take_off() {
  const std::int64_t position = position_;
  reason_->ask(tr("Why is %1 taken off?").arg(position),
               [this, position](const QString& why) { return trays::clear(session_.journal, tray_, position, to_core(why)); });
}

void TrayPane::ask_take_back(const trays::Shift& shift) {
  reason_->ask(tr("Why is it taken back?"),
               [this, shift](const QString& why) { return trays::take_back(session_.journal, tray_, shift, to_core(why)); });
}

void TrayPane::fill() {
  const auto held = trays::tray(session_.connection, tray_);
  auto waiting = held.ok() ? trays::without_place(session_.connection, held->kind, most_filled)
                           : Result<std::vector<trays::Thing>>(held.error());
  if (!waiting.ok()) return emit said(sentence(waiting.error()));
  const std::size_t room = std::size_t(held->grid.size()) - held->places.size();
  if (waiting->size() > room) waiting->resize(room);
  if (const auto placed = trays::place_all(session_.journal, tray_, *waiting); !placed.ok())
    return thing_->show_error(placed.error());
  after_write();
}

void TrayPane::carry_on(trays::Kind kind) {
  const auto made = trays::carry_on_to_new(session_.journal, tray_, kind);
  if (!made.ok()) return thing_->show_error(made.error());
  emit tray_wanted(*made);
}

void TrayPane::put_away() {
  const auto held = trays::tray(session_.connection, tray_);
  if (!held.ok()) return;
  const auto done = trays::put_away(session_.journal, tray_, !held->put_away_at);
  if (!done.ok()) thing_->show_error(done.error());
}

void TrayPane::enter() { (session_.read_only() ? static_cast<QWidget*>(grid_) : thing_->line())->setFocus(Qt::OtherFocusReason); }

// Arrows on the empty line walk over the tray.
bool TrayPane::eventFilter(QObject*, QEvent* event) {
  if (event->type() != QEvent::KeyPress || !thing_->typed().isEmpty()) return false;
  const std::int64_t to = grid_->beside(static_cast<QKeyEvent*>(event)->key());
  if (!to) return false;
  take(to);
  return true;
}

}  // namespace prillbook::ui
