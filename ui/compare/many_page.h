// SPDX-License-Identifier: GPL-3.0-or-later
// Pan against fire of many samples: a picture, a table, and groups by client, place or month.
#pragma once

#include <QtCore/QTimer>
#include <QtWidgets/QWidget>

#include "core/results/compared.h"
#include "ui/kit/session.h"

class QComboBox;
class QLabel;
class QTableWidget;

namespace prillbook::ui {

class Headline;
class ManyChart;

class ManyPage : public QWidget {
  Q_OBJECT
 public:
  explicit ManyPage(Session& session, QWidget* parent = nullptr);
  // Reads the notebook again, a little at a time.
  void read();
  void enter();
  std::size_t owed() const { return list_.owed(); }
  QTableWidget* table() const { return table_; }
  ManyChart* chart() const { return chart_; }

 signals:
  void opened(std::int64_t sample);

 private:
  QComboBox* choice(const QString& name, const QStringList& words);
  void build();
  void read_on();
  void fill_choices();
  void refresh();
  void fill_table();
  void fill_groups();
  results::ComparedWish wish() const;
  void row_in_hand();
  void take(std::int64_t sample);
  bool eventFilter(QObject* watched, QEvent* event) override;

  Session& session_;
  results::ComparedList list_;
  std::vector<results::ComparedSample> shown_;
  QTimer pump_;
  Headline* head_;
  QComboBox *client_, *place_, *period_, *picture_, *group_;
  ManyChart* chart_;
  QLabel* legend_;
  QTableWidget* table_;
  QLabel* groups_;
};

}  // namespace prillbook::ui
