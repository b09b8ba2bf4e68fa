// SPDX-License-Identifier: GPL-3.0-or-later
// Check weights and their weighings: the figure is typed, its deviation stands on a chart over time between its limits.
#pragma once

#include <QtWidgets/QWidget>
#include <vector>

#include "core/weighing/check_weights.h"
#include "ui/kit/session.h"

class QChart;
class QChartView;
class QLabel;

namespace prillbook::ui {

class PickField;
class ReadingField;
class TextField;

class CheckPage : public QWidget {
  Q_OBJECT
 public:
  explicit CheckPage(Session& session, QWidget* parent = nullptr);
  void refresh();
  void enter();
  int count() const { return int(weights_.size()); }  // check weights

 private:
  void build();
  Result<void> weigh(const readings::Figure& figure);
  void show_checks();
  void draw(const std::vector<weighing::CheckWeighing>& checks);
  QString verdict_words(const std::vector<weighing::CheckWeighing>& checks) const;

  Session& session_;
  std::vector<weighing::CheckWeight> weights_;
  BalanceId balance_;
  CheckWeightId weight_;
  std::string fresh_name_;
  readings::Figure fresh_nominal_;
  PickField* balance_field_;
  PickField* weight_field_;
  ReadingField* mass_;
  QLabel* verdict_;
  QChart* chart_;
  QChartView* view_;
  QLabel* list_;
  TextField* name_;
  ReadingField* nominal_;
  ReadingField* allowed_;
};

}  // namespace prillbook::ui
