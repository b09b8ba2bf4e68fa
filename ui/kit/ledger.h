// SPDX-License-Identifier: GPL-3.0-or-later
// A short list of things that belong together, each on one ruled line: number, what it is, a figure on its decimal mark,
// and quiet words after it. What was cut from what is shown by indenting.
#pragma once

#include <QtCore/QAbstractListModel>
#include <QtWidgets/QListView>
#include <vector>

#include "core/base/id.h"
#include "ui/kit/figures.h"

namespace prillbook::ui {

struct LedgerRow {
  RecordId id = 0;
  int depth = 0;
  QString number;  // "26-0003/2"
  QString title;   // "pan"
  Figure figure;   // drawn only where `has_figure`; not measured: an empty ruled line
  bool has_figure = true;
  QString words;  // "380 g left"

  friend bool operator==(const LedgerRow&, const LedgerRow&) = default;
};

class LedgerModel : public QAbstractListModel {
  Q_OBJECT
 public:
  using QAbstractListModel::QAbstractListModel;
  void set_rows(std::vector<LedgerRow> rows);
  const LedgerRow* row(const QModelIndex& index) const;
  int row_of(RecordId id) const;  // -1: none
  int rowCount(const QModelIndex& parent = {}) const override;
  QVariant data(const QModelIndex& index, int role) const override;

 private:
  std::vector<LedgerRow> rows_;
};

class Ledger : public QListView {
  Q_OBJECT
 public:
  explicit Ledger(const QString& accessible_name, QWidget* parent = nullptr);
  // The row in hand stays in hand.
  void set_rows(std::vector<LedgerRow> rows);
  RecordId in_hand() const;
  void take(RecordId id);  // selects without telling
  int count() const { return model_.rowCount(); }
  // As tall as its rows, up to this many; beyond that it scrolls.
  void set_most_rows(int rows);
  const LedgerModel& rows() const { return model_; }

 signals:
  void taken(prillbook::RecordId id);   // by mouse or keyboard
  void opened(prillbook::RecordId id);  // Enter

 protected:
  void currentChanged(const QModelIndex& current, const QModelIndex& previous) override;
  void keyPressEvent(QKeyEvent* event) override;

 private:
  void fit();

  LedgerModel model_;
  int most_rows_ = 8;
  bool silent_ = false;
};

}  // namespace prillbook::ui
