// SPDX-License-Identifier: GPL-3.0-or-later
// A client's list as a table to look over. Cells are put into words only when they are shown.
#pragma once

#include <QtCore/QAbstractTableModel>
#include <optional>

#include "core/intake/sample_list.h"

namespace prillbook::ui {

class ImportModel : public QAbstractTableModel {
  Q_OBJECT
 public:
  using QAbstractTableModel::QAbstractTableModel;
  void show_list(std::optional<intake::SampleList> list);
  const intake::SampleList* list() const { return list_ ? &*list_ : nullptr; }

  // As the functions of SampleList; the table is told.
  Result<void> read_rest();
  Result<void> read_as(const intake::ListOptions& options);
  void use_column(int column, const intake::ColumnUse& use);
  void say_mark(DecimalMark mark);
  void say_heading(bool heading);

  // The note of a cell, or that of its row in the first cell without one of its own; nullptr where all is well.
  const intake::RowNote* note(const QModelIndex& index) const;
  // A refused cell at or below this row, going round; invalid where there is none.
  QModelIndex next_refused(int from_row) const;

  int rowCount(const QModelIndex& parent = {}) const override;
  int columnCount(const QModelIndex& parent = {}) const override;
  QVariant data(const QModelIndex& index, int role) const override;
  QVariant headerData(int section, Qt::Orientation orientation, int role) const override;
  Qt::ItemFlags flags(const QModelIndex& index) const override;
  bool setData(const QModelIndex& index, const QVariant& value, int role) override;

 signals:
  void checked();  // notes may be others than before

 private:
  void tell_all();

  std::optional<intake::SampleList> list_;
};

}  // namespace prillbook::ui
