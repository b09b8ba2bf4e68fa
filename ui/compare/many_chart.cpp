// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/compare/many_chart.h"

#include <QtCharts/QChart>
#include <QtCharts/QLineSeries>
#include <QtCharts/QScatterSeries>
#include <QtCharts/QValueAxis>
#include <QtCore/QEvent>
#include <QtGui/QMouseEvent>
#include <QtGui/QPainter>
#include <QtWidgets/QGraphicsLayout>
#include <QtWidgets/QGraphicsScene>
#include <algorithm>
#include <cmath>

#include "ui/kit/figures.h"
#include "ui/kit/sentences.h"
#include "ui/kit/theme.h"

namespace prillbook::ui {
namespace {

constexpr int room_left = 8 * rhythm, room_top = 4 * rhythm, room_bottom = 7 * rhythm, room_right = 3 * rhythm;
constexpr double span_for_log = 30, pick_within = 14, most_percent = 160;

std::optional<double> in_g_t(const std::optional<Grade>& grade) {
  if (!grade) return std::nullopt;
  return grade->in(unit::gram_per_tonne);
}

std::optional<double> in_percent(const std::optional<double>& ratio) {
  return ratio ? std::optional(100 * *ratio) : std::nullopt;
}

// 1, 2 and 5 times powers of ten.
std::vector<double> decades(double from, double to) {
  std::vector<double> ticks;
  for (double power = std::pow(10, std::floor(std::log10(from))); power <= to * 1.0001; power *= 10)
    for (const double one : {1.0, 2.0, 5.0})
      if (one * power >= from * 0.9999 && one * power <= to * 1.0001) ticks.push_back(one * power);
  return ticks;
}

QString tick_words(double value, DecimalMark mark) {
  const int decimals = value == 0 || value >= 10 ? 0 : value >= 1 ? (value == std::floor(value) ? 0 : 1) : 2;
  return figure(fixed(value, decimals), {}, mark).number;
}

}  // namespace

ManyChart::ManyChart(QWidget* parent) : QWidget(parent) { setSizePolicy(QSizePolicy::Expanding, QSizePolicy::Fixed); }

QSize ManyChart::sizeHint() const { return {80 * rhythm, 44 * rhythm}; }
QSize ManyChart::minimumSizeHint() const { return {40 * rhythm, 36 * rhythm}; }

void ManyChart::show_samples(std::vector<results::ComparedSample> samples, Kind kind, DecimalMark mark) {
  kind_ = kind;
  mark_ = mark;
  points_.clear();
  std::vector<double> xs, ys;
  for (const results::ComparedSample& one : samples) {
    const double fire = one.fire.in(unit::gram_per_tonne);
    const bool recovery = kind == Kind::recovery_against_grade;
    const auto y = recovery ? in_percent(one.recovery) : std::optional(one.pan.in(unit::gram_per_tonne));
    if (!y || !std::isfinite(*y) || !std::isfinite(fire)) continue;
    points_.push_back({one.sample, fire, *y, in_g_t(one.fire_lo), in_g_t(one.fire_hi),
                       recovery ? in_percent(one.recovery_lo) : in_g_t(one.pan_lo),
                       recovery ? in_percent(one.recovery_hi) : in_g_t(one.pan_hi), one.verdict});
    xs.push_back(fire);
    (recovery ? ys : xs).push_back(*y);
  }
  across_ = axis_of(xs, false);
  up_ = kind == Kind::recovery_against_grade ? axis_of(ys, true) : across_;
  setAccessibleName(kind == Kind::recovery_against_grade
                        ? tr("Recovery against grade of %n samples", nullptr, int(points_.size()))
                        : tr("Pan against fire of %n samples", nullptr, int(points_.size())));
  update();
}

void ManyChart::mark_sample(SampleId sample) {
  marked_ = sample;
  update();
}

ManyChart::Axis ManyChart::axis_of(std::vector<double> values, bool per_cent) {
  Axis axis;
  std::erase_if(values, [](double value) { return !(value > 0); });
  const auto [least, most] = std::minmax_element(values.begin(), values.end());
  if (per_cent) {
    axis.to = std::clamp(values.empty() ? 100.0 : std::ceil(*most / 20) * 20, 100.0, most_percent);
    for (double tick = 0; tick <= axis.to; tick += 20) axis.ticks.push_back(tick);
    return axis;
  }
  if (values.empty()) return axis;
  axis.log = *most > span_for_log * *least;
  if (axis.log) {
    axis.from = *least / 1.5, axis.to = *most * 1.5;
    axis.ticks = decades(axis.from, axis.to);
    return axis;
  }
  const double power = std::pow(10, std::floor(std::log10(*most / 5)));
  double step = 10 * power;
  for (const double one : {1.0, 2.0, 5.0})
    if (*most * 1.1 / (one * power) <= 6) {
      step = one * power;
      break;
    }
  axis.to = std::ceil(*most * 1.1 / step) * step;
  for (double tick = 0; tick <= axis.to * 1.0001; tick += step) axis.ticks.push_back(tick);
  return axis;
}

double ManyChart::Axis::share(double value) const {
  const auto along = [this](double v) { return log ? std::log10(std::max(v, from * 0.5)) : v; };
  return std::clamp((along(value) - along(from)) / (along(to) - along(from)), 0.0, 1.0);
}

QPointF ManyChart::at(double x, double y) const {
  return {plot_.left() + across_.share(x) * plot_.width(), plot_.bottom() - up_.share(y) * plot_.height()};
}

std::optional<QPointF> ManyChart::place_of(SampleId sample) const {
  for (const Point& one : points_)
    if (one.sample == sample) return at(one.x, one.y);
  return std::nullopt;
}

void ManyChart::paintEvent(QPaintEvent*) {
  QPainter painter(this);
  painter.setRenderHint(QPainter::Antialiasing);
  plot_ =
      QRectF(room_left, room_top, std::max(1, width() - room_left - room_right), std::max(1, height() - room_top - room_bottom));
  painter.setFont(face(TextSize::small));
  if (points_.empty()) {
    painter.setPen(inks().quiet);
    painter.drawText(plot_, Qt::AlignCenter | Qt::TextWordWrap,
                     tr("No sample here has a figure of the pan and one of the fire."));
    return;
  }
  paint_axes(painter);
  paint_whiskers(painter);
  paint_dots(painter);
}

void ManyChart::paint_axes(QPainter& painter) const {
  const Inks& ink = inks();
  const QFontMetricsF metrics(painter.font());
  for (const double tick : up_.ticks) {
    const double y = plot_.bottom() - up_.share(tick) * plot_.height();
    painter.setPen(QPen(ink.rule, 1));
    painter.drawLine(QPointF(plot_.left(), y), QPointF(plot_.right(), y));
    painter.setPen(ink.quiet);
    const QString words = tick_words(tick, mark_);
    painter.drawText(QPointF(plot_.left() - metrics.horizontalAdvance(words) - rhythm, y + 5), words);
  }
  for (const double tick : across_.ticks) {
    const double x = plot_.left() + across_.share(tick) * plot_.width();
    painter.setPen(QPen(ink.rule, 1));
    painter.drawLine(QPointF(x, plot_.top()), QPointF(x, plot_.bottom()));
    painter.setPen(ink.quiet);
    const QString words = tick_words(tick, mark_);
    painter.drawText(QPointF(x - metrics.horizontalAdvance(words) / 2, plot_.bottom() + 20), words);
  }
  painter.setPen(ink.ink);
  const QString across = tr("fire, g/t"), up = kind_ == Kind::recovery_against_grade ? tr("recovery, %") : tr("pan, g/t");
  painter.drawText(QPointF(plot_.right() - metrics.horizontalAdvance(across), plot_.bottom() + 44), across);
  painter.drawText(QPointF(plot_.left() - room_left + rhythm, plot_.top() - 12), up);
}

void ManyChart::paint_whiskers(QPainter& painter) const {
  painter.setPen(QPen(inks().quiet, 1));
  for (const Point& one : points_) {
    if (one.x_lo && one.x_hi) painter.drawLine(at(*one.x_lo, one.y), at(*one.x_hi, one.y));
    if (one.y_lo && one.y_hi) painter.drawLine(at(one.x, *one.y_lo), at(one.x, *one.y_hi));
  }
}

// A filled dot: gold left behind; an open one: no gap shown; a square: the pan above the fire.
void ManyChart::paint_dots(QPainter& painter) {
  const Inks& ink = inks();
  QGraphicsScene scene;
  auto* chart = new QChart;
  scene.addItem(chart);
  chart->legend()->hide();
  chart->setBackgroundVisible(false);
  chart->setMargins(QMargins());
  chart->layout()->setContentsMargins(0, 0, 0, 0);
  auto* across = new QValueAxis;
  auto* up = new QValueAxis;
  for (QValueAxis* axis : {across, up}) axis->setRange(0, 1), axis->setVisible(false);
  chart->addAxis(across, Qt::AlignBottom);
  chart->addAxis(up, Qt::AlignLeft);
  const auto add = [&](QXYSeries* series) {
    chart->addSeries(series);
    series->attachAxis(across);
    series->attachAxis(up);
  };
  auto* even = new QLineSeries;
  if (kind_ == Kind::pan_against_fire)
    even->append(0, 0), even->append(1, 1);
  else
    even->append(0, up_.share(100)), even->append(1, up_.share(100));
  even->setPen(QPen(ink.accent, 1.6, Qt::DashLine));
  add(even);
  for (const Verdict verdict :
       {Verdict::not_determined, Verdict::no_gap_shown, Verdict::gold_left_behind, Verdict::pan_exceeds_fire}) {
    auto* dots = new QScatterSeries;
    for (const Point& one : points_)
      if (one.verdict == verdict) dots->append(across_.share(one.x), up_.share(one.y));
    dots->setMarkerSize(10);
    dots->setMarkerShape(verdict == Verdict::pan_exceeds_fire ? QScatterSeries::MarkerShapeRectangle
                                                              : QScatterSeries::MarkerShapeCircle);
    const bool open = verdict == Verdict::no_gap_shown || verdict == Verdict::not_determined;
    dots->setBrush(open ? ink.ground : verdict == Verdict::pan_exceeds_fire ? ink.signal : ink.gold);
    dots->setPen(QPen(ink.ink, 1.4));
    add(dots);
  }
  chart->resize(size());
  chart->setPlotArea(plot_);
  scene.setSceneRect(QRectF(QPointF(), QSizeF(size())));
  scene.render(&painter, rect(), scene.sceneRect(), Qt::IgnoreAspectRatio);
  if (const auto place = place_of(marked_)) {
    painter.setBrush(Qt::NoBrush);
    painter.setPen(QPen(ink.accent, 2));
    painter.drawEllipse(*place, 11, 11);
  }
}

void ManyChart::mousePressEvent(QMouseEvent* event) {
  const Point* nearest = nullptr;
  double within = pick_within;
  for (const Point& one : points_) {
    const double away = std::hypot(at(one.x, one.y).x() - event->position().x(), at(one.x, one.y).y() - event->position().y());
    if (away < within) within = away, nearest = &one;
  }
  if (nearest) emit picked(nearest->sample.value);
}

void ManyChart::changeEvent(QEvent* event) {
  QWidget::changeEvent(event);
  if (event->type() == QEvent::PaletteChange) update();
}

}  // namespace prillbook::ui
