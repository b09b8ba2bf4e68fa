// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/setup/record_table.h"

#include <QtWidgets/QGridLayout>
#include <QtWidgets/QLabel>
#include <QtWidgets/QLineEdit>
#include <QtWidgets/QVBoxLayout>
#include <algorithm>

#include "core/readings/entry.h"
#include "ui/kit/sentences.h"
#include "ui/kit/theme.h"
#include "ui/setup/page_line.h"

namespace prillbook::ui {

struct RecordTable::Row {
  RecordFields* fields = nullptr;
  std::vector<QWidget*> cells;
  std::vector<std::pair<PickField*, const TableColumn*>> picks;
};

namespace {

QWidget* in_row(Field* field) {
  field->set_in_row(true);
  return field;
}

}  // namespace

RecordTable::RecordTable(Session& session, history::Entity entity, std::vector<TableColumn> columns, Make make,
                         const QString& add_words, QWidget* parent)
    : QWidget(parent),
      session_(session),
      entity_(entity),
      columns_(std::move(columns)),
      make_(std::move(make)),
      add_words_(add_words),
      page_line_(new PageLine(columns_.front().label)),
      grid_(new QGridLayout) {
  auto* column = new QVBoxLayout(this);
  column->setContentsMargins(0, 0, 0, 0);
  column->setSpacing(0);
  column->addWidget(page_line_);
  column->addLayout(grid_);
  connect(page_line_, &PageLine::turned, this, &RecordTable::turn);
  connect(page_line_, &PageLine::entered, this, [this] {
    if (!rows_.empty()) rows_.front()->cells.front()->setFocus(Qt::TabFocusReason);
  });
  grid_->setHorizontalSpacing(3 * rhythm);
  grid_->setVerticalSpacing(0);
  for (std::size_t i = 0; i < columns_.size(); ++i) {
    auto* head = new QLabel(columns_[i].label);
    head->setFont(face(TextSize::small));
    head->setProperty("tone", "quiet");
    grid_->addWidget(head, 0, int(i));
    grid_->setColumnStretch(int(i), columns_[i].stretch);
  }
  refresh();
}

RecordTable::~RecordTable() = default;

RecordTable::Row* RecordTable::add_row(RecordId id) {
  auto owned = std::make_unique<Row>();
  Row& row = *owned;
  row.fields = new RecordFields(session_, entity_, this);
  for (const TableColumn& column : columns_) row.cells.push_back(cell(row, column));
  row.fields->write_by(columns_.front().field, [this, &row](RecordId, const history::Value& value, const RecordFields::Why& why) {
    return write_first(row, value, why);
  });
  row.fields->show(id);
  for (std::size_t i = 0; i + 1 < row.cells.size(); ++i) setTabOrder(row.cells[i], row.cells[i + 1]);
  rows_.push_back(std::move(owned));
  return &row;
}

QWidget* RecordTable::cell(Row& row, const TableColumn& column) {
  constexpr int figure_digits = 9, whole_digits = 6;
  switch (column.field.kind) {
    case history::FieldKind::reading: {
      auto* entry = row.fields->figure(column.label, column.field, column.unit, false);
      entry->field()->set_in_row(true);
      entry->field()->set_width_in_digits(figure_digits);
      return entry;
    }
    case history::FieldKind::choice:
      row.fields->write_by(column.field,
                           [this, &column](RecordId record, const history::Value& value, const RecordFields::Why& why) {
                             const auto* word = std::get_if<std::string>(&value);
                             if (choose_) return choose_(record, word ? std::optional(*word) : std::nullopt);
                             return readings::enter(session_.journal, column.field, record, value, why);
                           });
      return in_row(row.fields->choice(column.label, column.field));
    case history::FieldKind::instant: return in_row(row.fields->time(column.label, column.field));
    case history::FieldKind::whole: {
      auto* whole = row.fields->whole(column.label, column.field);
      whole->set_width_in_digits(whole_digits);
      return in_row(whole);
    }
    case history::FieldKind::reference: {
      auto* pick = row.fields->pick(column.label, column.field);
      row.picks.emplace_back(pick, &column);
      if (column.items) pick->set_items(column.items());
      return in_row(pick);
    }
    case history::FieldKind::text:
    case history::FieldKind::flag: break;
  }
  return in_row(row.fields->text(column.label, column.field));
}

void RecordTable::place(Row& row, int line) {
  for (std::size_t i = 0; i < row.cells.size(); ++i) {
    grid_->removeWidget(row.cells[i]);
    grid_->addWidget(row.cells[i], line, int(i), Qt::AlignTop);
    row.cells[i]->setEnabled(i == 0 || row.fields->record() != 0);
  }
  auto* first = static_cast<TextField*>(row.fields->all().front());
  first->line()->setPlaceholderText(row.fields->record() ? QString() : add_words_);
  grid_->setRowMinimumHeight(line, 4 * rhythm + 4);
}

// Rows as their records follow each other, the foot last, and the keyboard the same way.
void RecordTable::arrange() {
  const auto rank = [&](const std::unique_ptr<Row>& row) {
    return row.get() == foot_ ? shown_.end() : std::find(shown_.begin(), shown_.end(), row->fields->record());
  };
  std::stable_sort(rows_.begin(), rows_.end(), [&](const auto& a, const auto& b) { return rank(a) < rank(b); });
  const int lines = grid_->rowCount();
  for (std::size_t i = 0; i < rows_.size(); ++i) {
    place(*rows_[i], int(i) + 1);
    if (i > 0) setTabOrder(rows_[i - 1]->cells.back(), rows_[i]->cells.front());
  }
  for (int line = int(rows_.size()) + 1; line < lines; ++line) grid_->setRowMinimumHeight(line, 0);
}

// The foot becomes the row of the record it made; the next foot is added after the field has moved on.
Result<void> RecordTable::write_first(Row& row, const history::Value& value, const RecordFields::Why& why) {
  const auto* words = std::get_if<std::string>(&value);
  if (row.fields->record() && rename_) return rename_(row.fields->record(), words ? *words : std::string(), why);
  if (row.fields->record()) return readings::enter(session_.journal, columns_.front().field, row.fields->record(), value, why);
  busy_ = true;
  const auto id = make_(words ? *words : std::string());
  busy_ = false;
  if (!id.ok()) return id.error();
  row.fields->adopt(*id);
  shown_.push_back(*id);
  for (QWidget* cell : row.cells) cell->setEnabled(true);
  if (foot_ == &row) foot_ = nullptr;
  refresh();
  emit made(*id);
  return {};
}

bool RecordTable::read_names() {
  const auto records = history::load_all(session_.connection, entity_);
  if (!records.ok()) return false;
  all_.clear();
  for (const history::Record& record : *records) all_.push_back({record.id(), to_qt(record.text(columns_.front().field))});
  return true;
}

// The records of the page that is turned to.
std::vector<RecordId> RecordTable::page() {
  std::vector<RecordId> found;
  const QString wanted = page_line_->wanted();
  for (const Named& one : all_)
    if (one.name.contains(wanted, Qt::CaseInsensitive)) found.push_back(one.id);
  page_line_->set_rows(int(found.size()), int(all_.size()));
  const auto first = found.begin() + page_line_->first();
  return {first, first + std::min<std::ptrdiff_t>(PageLine::page_size, found.end() - first)};
}

// The rows at hand show other records: what was typed and not taken waits with the record that it was typed for.
void RecordTable::turn() {
  shown_ = page();
  busy_ = true;
  auto next = shown_.begin();
  for (const auto& row : rows_)
    if (row.get() != foot_ && next != shown_.end()) row->fields->show(*next++);
  busy_ = false;
  read_names();
  fill();
}

void RecordTable::refresh() {
  if (busy_ || !read_names()) return;
  std::erase_if(shown_, [&](RecordId id) {
    return std::none_of(all_.begin(), all_.end(), [id](const Named& one) { return one.id == id; });
  });
  const std::vector<RecordId> wanted = page();
  if (page_line_->wanted().isEmpty())
    for (const RecordId id : wanted)
      if (std::find(shown_.begin(), shown_.end(), id) == shown_.end()) shown_.push_back(id);
  std::sort(shown_.begin(), shown_.end());
  for (const auto& row : rows_) {
    for (const auto& [pick, column] : row->picks)
      if (column->items) pick->set_items(column->items());
    row->fields->refresh();
  }
  fill();
}

void RecordTable::drop_rows_not_shown() {
  std::erase_if(rows_, [&](const std::unique_ptr<Row>& row) {
    const bool stays = row.get() == foot_ || std::find(shown_.begin(), shown_.end(), row->fields->record()) != shown_.end();
    if (!stays) {
      for (QWidget* cell : row->cells) cell->hide(), cell->deleteLater();
      row->fields->deleteLater();
    }
    return !stays;
  });
}

void RecordTable::fill() {
  drop_rows_not_shown();
  for (const RecordId id : shown_)
    if (!row_of(id)) add_row(id);
  if (!foot_ && !session_.read_only()) foot_ = add_row(0);
  arrange();
}

RecordTable::Row* RecordTable::row_of(RecordId id) const {
  for (const auto& row : rows_)
    if (row->fields->record() == id) return row.get();
  return nullptr;
}

bool RecordTable::take(RecordId id) {
  const auto there = std::find_if(all_.begin(), all_.end(), [id](const Named& one) { return one.id == id; });
  if (there == all_.end()) return false;
  if (!row_of(id)) {
    page_line_->show_row(int(there - all_.begin()));
    turn();
  }
  row_of(id)->cells.front()->setFocus(Qt::OtherFocusReason);
  return true;
}

void RecordTable::enter() {
  if (foot_) foot_->cells.front()->setFocus(Qt::OtherFocusReason);
}

}  // namespace prillbook::ui
