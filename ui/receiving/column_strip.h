// SPDX-License-Identifier: GPL-3.0-or-later
// The row above a list: what each column stands for. It follows the columns of the table when they are moved or widened.
#pragma once

#include <QtWidgets/QComboBox>
#include <QtWidgets/QWidget>
#include <vector>

#include "core/intake/columns.h"
#include "core/intake/sample_list.h"

class QTableView;

namespace prillbook::ui {

// A list of choices that no wheel turns by accident.
class QuietCombo : public QComboBox {
  Q_OBJECT
 public:
  using QComboBox::QComboBox;

 protected:
  void wheelEvent(QWheelEvent* event) override;
  void keyPressEvent(QKeyEvent* event) override;
};

class ColumnStrip : public QWidget {
  Q_OBJECT
 public:
  explicit ColumnStrip(QTableView* table, QWidget* parent = nullptr);
  void show_columns(const std::vector<intake::ListColumn>& columns);
  QComboBox* at(int column) const { return combos_[std::size_t(column)]; }

 signals:
  void chosen(int column, const prillbook::intake::ColumnUse& use);

 protected:
  bool eventFilter(QObject* watched, QEvent* event) override;

 private:
  void place();
  void fill(QComboBox* combo, const intake::ColumnUse& use);

  QTableView* table_;
  std::vector<QComboBox*> combos_;
};

}  // namespace prillbook::ui
