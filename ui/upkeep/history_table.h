// SPDX-License-Identifier: GPL-3.0-or-later
// Entries of the history on ruled lines: when and who, what it was about, old and new value, why. What was taken back is
// struck through and says so.
#pragma once

#include <QtCore/QAbstractTableModel>
#include <QtWidgets/QTableView>
#include <vector>

#include "core/store/connection.h"
#include "core/versions/versions.h"

namespace prillbook::ui {

class HistoryModel : public QAbstractTableModel {
  Q_OBJECT
 public:
  enum Column { when_column, who_column, record_column, field_column, old_column, new_column, why_column, column_count };
  using QAbstractTableModel::QAbstractTableModel;

  void clear();
  void append(store::Connection& connection, const std::vector<versions::Version>& versions);
  const versions::Version* version(int row) const;

  int rowCount(const QModelIndex& parent = {}) const override;
  int columnCount(const QModelIndex& parent = {}) const override;
  QVariant data(const QModelIndex& index, int role) const override;
  QVariant headerData(int section, Qt::Orientation orientation, int role) const override;

 private:
  struct Line {
    versions::Version version;
    QString cells[column_count];
  };
  static Line line_of(store::Connection& connection, const versions::Version& version);

  std::vector<Line> lines_;
};

class HistoryTable : public QTableView {
  Q_OBJECT
 public:
  explicit HistoryTable(const QString& accessible_name, QWidget* parent = nullptr);
  HistoryModel& lines() { return model_; }
  void set_empty_words(const QString& words);
  // All of the entry in hand, with nothing cut short.
  QString whole_words() const;

 signals:
  void taken();                               // another entry is in hand
  void opened(qint64 entity, qint64 record);  // Enter, double click: to the record
  void end_reached();                         // scrolled to the last line

 protected:
  void paintEvent(QPaintEvent* event) override;
  void keyPressEvent(QKeyEvent* event) override;
  void currentChanged(const QModelIndex& current, const QModelIndex& previous) override;
  void resizeEvent(QResizeEvent* event) override;

 private:
  void open_current();

  HistoryModel model_;
  QString empty_words_;
};

}  // namespace prillbook::ui
