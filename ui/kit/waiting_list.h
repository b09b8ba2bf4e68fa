// SPDX-License-Identifier: GPL-3.0-or-later
// What waits at a station: the number, the title, and the few words that decide what to do next.
#pragma once

#include <QtCore/QAbstractListModel>
#include <QtWidgets/QListView>
#include <functional>
#include <vector>

#include "core/base/id.h"

namespace prillbook::ui {

enum class Urgency { usual, soon, now };

struct WaitingRow {
  RecordId id = 0;
  QString number;  // "26-0014"
  QString title;   // "Larch adit N"
  QString words;   // "torn, sweepings"
  Urgency urgency = Urgency::usual;

  friend bool operator==(const WaitingRow&, const WaitingRow&) = default;
};

// Rows `from` … `from + count - 1`; fewer where there are no more.
using WaitingPage = std::function<std::vector<WaitingRow>(int from, int count)>;

class WaitingModel : public QAbstractListModel {
  Q_OBJECT
 public:
  enum Role { id_role = Qt::UserRole, number_role, title_role, words_role, urgency_role };
  static constexpr int page_size = 50;

  using QAbstractListModel::QAbstractListModel;
  // Reads the first page; the next when the list is scrolled to its end.
  void read_from(WaitingPage page);
  // Reads again as many rows as are shown, keeping the rows that stay.
  void refresh();
  const WaitingRow* row(const QModelIndex& index) const;
  int row_of(RecordId id) const;  // -1: not among the rows read

  int rowCount(const QModelIndex& parent = {}) const override;
  QVariant data(const QModelIndex& index, int role) const override;
  bool canFetchMore(const QModelIndex& parent) const override;
  void fetchMore(const QModelIndex& parent) override;

 private:
  WaitingPage page_;
  std::vector<WaitingRow> rows_;
  bool complete_ = true;
};

class WaitingList : public QListView {
  Q_OBJECT
 public:
  explicit WaitingList(const QString& accessible_name, QWidget* parent = nullptr);

  void read_from(WaitingPage page);
  void refresh();  // the row in hand stays in hand
  // What an empty list says: what to do next, in the place where it will be done.
  void set_empty_words(const QString& words);
  RecordId in_hand() const;  // 0: none
  void take(RecordId id);    // selects without telling
  WaitingModel& rows() { return model_; }

 signals:
  // The row in hand changed by mouse or keyboard.
  void taken(prillbook::RecordId id);
  // Enter or double click: on to the form.
  void opened(prillbook::RecordId id);

 protected:
  void paintEvent(QPaintEvent* event) override;
  void currentChanged(const QModelIndex& current, const QModelIndex& previous) override;

 private:
  WaitingModel model_;
  QString empty_words_;
  bool silent_ = false;
};

}  // namespace prillbook::ui
