// SPDX-License-Identifier: GPL-3.0-or-later
// Many samples in one picture: pan against fire with the line where both agree, or recovery against grade.
#pragma once

#include <QtWidgets/QWidget>
#include <vector>

#include "core/base/number.h"
#include "core/results/compared.h"

namespace prillbook::ui {

class ManyChart : public QWidget {
  Q_OBJECT
 public:
  enum class Kind { pan_against_fire, recovery_against_grade };

  explicit ManyChart(QWidget* parent = nullptr);
  void show_samples(std::vector<results::ComparedSample> samples, Kind kind, DecimalMark mark);
  void mark_sample(SampleId sample);  // a ring round its dot
  QSize sizeHint() const override;
  QSize minimumSizeHint() const override;
  // Where the dot of a sample was drawn; nullopt where it has none.
  std::optional<QPointF> place_of(SampleId sample) const;

 signals:
  void picked(std::int64_t sample);

 protected:
  void paintEvent(QPaintEvent* event) override;
  void mousePressEvent(QMouseEvent* event) override;
  void changeEvent(QEvent* event) override;

 private:
  // One axis: a logarithm where the figures span much, else from nothing up.
  struct Axis {
    bool log = false;
    double from = 0, to = 1;
    std::vector<double> ticks;
    double share(double value) const;  // 0 to 1 along the axis
  };
  struct Point {
    SampleId sample;
    double x, y;
    std::optional<double> x_lo, x_hi, y_lo, y_hi;
    Verdict verdict;
  };
  static Axis axis_of(std::vector<double> values, bool per_cent);
  QPointF at(double x, double y) const;
  void paint_axes(QPainter& painter) const;
  void paint_whiskers(QPainter& painter) const;
  void paint_dots(QPainter& painter);

  std::vector<Point> points_;
  Kind kind_ = Kind::pan_against_fire;
  DecimalMark mark_ = DecimalMark::point;
  Axis across_, up_;
  QRectF plot_;
  SampleId marked_;
};

}  // namespace prillbook::ui
