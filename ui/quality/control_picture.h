// SPDX-License-Identifier: GPL-3.0-or-later
// Results on one control material in the order in which they were made, with the lines that they are judged by.
#pragma once

#include <QtWidgets/QWidget>
#include <optional>
#include <vector>

#include "core/results/control_chart.h"

namespace prillbook::ui {

class ControlPicture : public QWidget {
  Q_OBJECT
 public:
  explicit ControlPicture(QWidget* parent = nullptr);
  // `blank_limit`, in g/t: the one line of a blank; absent for a reference material.
  void show_chart(results::ControlChart chart, std::optional<double> blank_limit, DecimalMark mark);
  int points_drawn() const { return int(chart_.points.size()); }
  QSize sizeHint() const override;
  QSize minimumSizeHint() const override;

 protected:
  void paintEvent(QPaintEvent* event) override;
  void changeEvent(QEvent* event) override;

 private:
  struct Line {
    double at = 0;
    QString words;
    bool dashed = false;
  };
  std::vector<Line> lines() const;
  void draw_lines(QPainter& painter, const QRectF& plot) const;
  void draw_points(QPainter& painter, const QRectF& plot) const;
  void draw_names(QPainter& painter, const QRectF& plot) const;
  void find_range();
  double x_of(std::size_t point, const QRectF& plot) const;
  double y_of(double grade, const QRectF& plot) const;

  results::ControlChart chart_;
  std::optional<double> blank_limit_;
  DecimalMark mark_ = DecimalMark::point;
  double low_ = 0, high_ = 1;
};

}  // namespace prillbook::ui
