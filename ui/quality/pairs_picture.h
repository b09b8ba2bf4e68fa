// SPDX-License-Identifier: GPL-3.0-or-later
// How far duplicates lie apart against their grade.
#pragma once

#include <QtWidgets/QWidget>
#include <vector>

#include "core/results/duplicate_pairs.h"

namespace prillbook::ui {

class PairsPicture : public QWidget {
  Q_OBJECT
 public:
  explicit PairsPicture(QWidget* parent = nullptr);
  void show_pairs(const std::vector<results::DuplicatePair>& pairs, DecimalMark mark);
  int points_drawn() const { return int(points_.size()); }
  QSize sizeHint() const override;
  QSize minimumSizeHint() const override;

 protected:
  void paintEvent(QPaintEvent* event) override;
  void changeEvent(QEvent* event) override;

 private:
  struct Point {
    double grade = 0, apart = 0, limit = 0;  // g/t, %, %
    controls::Role role = controls::Role::duplicate_pulp;
    bool outside = false;
    QString label;
  };
  void draw_scale(QPainter& painter, const QRectF& plot) const;
  void draw_pair(QPainter& painter, const QRectF& plot, const Point& point) const;
  QPointF place_of(const Point& point, const QRectF& plot) const;

  std::vector<Point> points_;
  DecimalMark mark_ = DecimalMark::point;
  double low_ = 0.1, high_ = 10, top_ = 40;  // decades of g/t, %
};

}  // namespace prillbook::ui
