// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/setup/record_table.h"

#include <QtWidgets/QGridLayout>
#include <QtWidgets/QLabel>
#include <QtWidgets/QLineEdit>
#include <algorithm>

#include "core/readings/entry.h"
#include "ui/kit/theme.h"

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
      grid_(new QGridLayout(this)) {
  grid_->setContentsMargins(0, 0, 0, 0);
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
  place(row);
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

void RecordTable::place(Row& row) {
  for (std::size_t i = 0; i < row.cells.size(); ++i) {
    grid_->addWidget(row.cells[i], next_, int(i), Qt::AlignTop);
    row.cells[i]->setEnabled(i == 0 || row.fields->record() != 0);
  }
  for (std::size_t i = 0; i + 1 < row.cells.size(); ++i) setTabOrder(row.cells[i], row.cells[i + 1]);
  auto* first = static_cast<TextField*>(row.fields->all().front());
  first->line()->setPlaceholderText(row.fields->record() ? QString() : add_words_);
  grid_->setRowMinimumHeight(next_++, 4 * rhythm + 4);
}

// The foot becomes the row of the record it made; the next foot is added after the field has moved on.
Result<void> RecordTable::write_first(Row& row, const history::Value& value, const RecordFields::Why& why) {
  const auto* words = std::get_if<std::string>(&value);
  if (row.fields->record() && rename_) return rename_(row.fields->record(), words ? *words : std::string(), why);
  if (row.fields->record()) return readings::enter(session_.journal, columns_.front().field, row.fields->record(), value, why);
  making_ = true;
  const auto id = make_(words ? *words : std::string());
  making_ = false;
  if (!id.ok()) return id.error();
  row.fields->adopt(*id);
  for (QWidget* cell : row.cells) cell->setEnabled(true);
  if (foot_ == &row) foot_ = nullptr;
  refresh();
  emit made(*id);
  return {};
}

void RecordTable::refresh() {
  if (making_) return;
  const auto records = history::load_all(session_.connection, entity_);
  if (!records.ok()) return;
  std::erase_if(rows_, [&](const std::unique_ptr<Row>& row) {
    const RecordId id = row->fields->record();
    const bool there = id == 0 || std::any_of(records->begin(), records->end(), [id](const auto& r) { return r.id() == id; });
    if (!there) {
      for (QWidget* cell : row->cells) cell->hide(), cell->deleteLater();
      row->fields->deleteLater();
    }
    return !there;
  });
  for (const auto& row : rows_) {
    for (const auto& [pick, column] : row->picks)
      if (column->items) pick->set_items(column->items());
    row->fields->refresh();
  }
  bool added = false;
  for (const history::Record& record : *records)
    if (!row_of(record.id())) add_row(record.id()), added = true;
  if (session_.read_only()) return;
  if (!foot_) {
    foot_ = add_row(0);
  } else if (added) {
    for (QWidget* cell : foot_->cells) grid_->removeWidget(cell);
    place(*foot_);
  }
}

RecordTable::Row* RecordTable::row_of(RecordId id) const {
  for (const auto& row : rows_)
    if (row->fields->record() == id) return row.get();
  return nullptr;
}

bool RecordTable::take(RecordId id) {
  Row* row = id ? row_of(id) : nullptr;
  if (row) row->cells.front()->setFocus(Qt::OtherFocusReason);
  return row != nullptr;
}

void RecordTable::enter() {
  if (foot_) foot_->cells.front()->setFocus(Qt::OtherFocusReason);
}

}  // namespace prillbook::ui
