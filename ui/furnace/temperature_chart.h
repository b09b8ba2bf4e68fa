// SPDX-License-Identifier: GPL-3.0-or-later
// Temperatures set and read over the time of a run.
#pragma once

#include <QtWidgets/QWidget>
#include <vector>

#include "core/fire/runs.h"

class QGraphicsScene;

namespace prillbook::ui {

class TemperatureChart : public QWidget {
  Q_OBJECT
 public:
  explicit TemperatureChart(QWidget* parent = nullptr);
  ~TemperatureChart() override;
  void show_readings(std::vector<fire::RunReading> readings);
  int points_drawn() const { return drawn_; }
  QSize sizeHint() const override;
  QSize minimumSizeHint() const override;

 protected:
  void paintEvent(QPaintEvent* event) override;
  void changeEvent(QEvent* event) override;

 private:
  std::vector<fire::RunReading> readings_;
  int drawn_ = 0;
};

}  // namespace prillbook::ui
