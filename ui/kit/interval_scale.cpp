// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/kit/interval_scale.h"

#include <QtCharts/QAreaSeries>
#include <QtCharts/QChart>
#include <QtCharts/QLineSeries>
#include <QtCharts/QScatterSeries>
#include <QtCharts/QValueAxis>
#include <QtCore/QCoreApplication>
#include <QtCore/QEvent>
#include <QtGui/QPainter>
#include <QtWidgets/QGraphicsLayout>
#include <QtWidgets/QGraphicsScene>
#include <algorithm>
#include <cmath>

#include "ui/kit/figures.h"

namespace prillbook::ui {

struct IntervalTicks {
  double from = 0, to = 1, step = 0.2;
  int decimals = 1;
};

namespace {

constexpr int interval_row = 8 * rhythm, gap_band = 4 * rhythm, axis_band = 5 * rhythm, right_room = 2 * rhythm;
constexpr double mark_at = 42;                 // of the dot within its row; the words stand above it
constexpr double cap = 0.11, thin_cap = 0.07;  // half heights of the ends, in rows

bool drawable(const IntervalRow& row) {
  const auto finite = [](double x) { return std::isfinite(x) && std::abs(x) < 1e12; };
  if (!finite(row.value) || !finite(row.lo) || !finite(row.hi) || row.lo > row.value || row.value > row.hi) return false;
  return !row.sampling ||
         (finite(row.sampling->first) && finite(row.sampling->second) && row.sampling->first <= row.sampling->second);
}

// 1, 2 or 5 times a power of ten, so that about five steps cover the span.
IntervalTicks scale_for(double least, double most) {
  if (least >= 0 && least < 0.5 * most) least = 0;
  double span = most - least;
  if (span <= 0) span = std::max(1e-6, std::abs(most) * 0.2);
  const double power = std::pow(10.0, std::floor(std::log10(span / 5)));
  const double multiple = span / 5 / power;
  IntervalTicks scale;
  scale.step = (multiple <= 1 ? 1 : multiple <= 2 ? 2 : multiple <= 5 ? 5 : 10) * power;
  scale.from = std::floor(least / scale.step) * scale.step;
  scale.to = std::ceil(most / scale.step) * scale.step;
  if (scale.to <= scale.from) scale.to = scale.from + scale.step;
  scale.decimals = std::clamp(int(-std::floor(std::log10(scale.step) + 1e-9)), 0, 12);
  return scale;
}

QString metal_word(Metal metal) {
  return metal == Metal::gold ? QCoreApplication::translate("IntervalScale", "gold")
                              : QCoreApplication::translate("IntervalScale", "silver");
}

}  // namespace

struct IntervalDrawing::Parts {
  IntervalPicture picture;
  Inks inks;
  std::vector<int> shown;  // rows that can be drawn
  IntervalTicks scale;
  QGraphicsScene scene;
  QChart* chart = new QChart;
  QValueAxis* across = new QValueAxis;
  QValueAxis* down = new QValueAxis;
  QRectF plot, area;

  Parts(IntervalPicture given, const Inks& given_inks) : picture(std::move(given)), inks(given_inks) {
    for (std::size_t i = 0; i < picture.rows.size(); ++i)
      if (drawable(picture.rows[i])) shown.push_back(int(i));
    find_scale();
    set_up_chart();
    if (picture.gap) add_gap(*picture.gap);
    for (std::size_t line = 0; line < shown.size(); ++line) add_row(picture.rows[std::size_t(shown[line])], double(line) + 0.5);
  }

  void find_scale() {
    if (shown.empty()) return;
    double least = 1e300, most = -1e300;
    const auto widen = [&](double x) { least = std::min(least, x), most = std::max(most, x); };
    for (const int i : shown) {
      const IntervalRow& row = picture.rows[std::size_t(i)];
      widen(row.lo), widen(row.hi);
      if (row.sampling) widen(row.sampling->first), widen(row.sampling->second);
      for (const double dot : row.dots)
        if (std::isfinite(dot) && std::abs(dot) < 1e12) widen(dot);
    }
    scale = scale_for(least, most);
  }

  void set_up_chart() {
    scene.addItem(chart);
    chart->legend()->hide();
    chart->setBackgroundVisible(false);
    chart->setPlotAreaBackgroundVisible(false);
    chart->setMargins(QMargins());
    chart->layout()->setContentsMargins(0, 0, 0, 0);
    across->setRange(scale.from, scale.to);
    across->setVisible(false);  // drawn by paint_axis, with figures as the lab writes them
    down->setRange(0, std::max<double>(1, double(shown.size())));
    down->setReverse(true);
    down->setVisible(false);
    chart->addAxis(across, Qt::AlignBottom);
    chart->addAxis(down, Qt::AlignLeft);
  }

  void attach(QAbstractSeries* series) {
    chart->addSeries(series);
    series->attachAxis(across);
    series->attachAxis(down);
  }

  void line(double x1, double y1, double x2, double y2, const QPen& pen) {
    auto* series = new QLineSeries;
    series->append(x1, y1);
    series->append(x2, y2);
    series->setPen(pen);
    attach(series);
  }

  void whisker(double lo, double hi, double y, double half_cap, const QPen& pen) {
    line(lo, y, hi, y, pen);
    line(lo, y - half_cap, lo, y + half_cap, pen);
    line(hi, y - half_cap, hi, y + half_cap, pen);
  }

  void add_gap(const std::pair<double, double>& gap) {
    if (!std::isfinite(gap.first) || !std::isfinite(gap.second)) return;
    const double lo = std::clamp(std::min(gap.first, gap.second), scale.from, scale.to);
    const double hi = std::clamp(std::max(gap.first, gap.second), scale.from, scale.to);
    const double depth = std::max<double>(1, double(shown.size()));
    auto* upper = new QLineSeries(chart);
    auto* lower = new QLineSeries(chart);
    for (const double x : {lo, hi}) upper->append(x, 0), lower->append(x, depth);
    auto* patch = new QAreaSeries(upper, lower);
    patch->setBrush(inks.gap);
    patch->setPen(Qt::NoPen);
    attach(patch);
  }

  void add_row(const IntervalRow& row, double middle) {
    const double y = middle - 0.5 + mark_at / interval_row;
    if (row.sampling) whisker(row.sampling->first, row.sampling->second, y, thin_cap, QPen(inks.quiet, 1));
    whisker(row.lo, row.hi, y, cap, QPen(inks.ink, 2.5, Qt::SolidLine, Qt::FlatCap));
    if (!row.dots.empty()) add_dots(row.dots, y);
    auto* dot = new QScatterSeries;
    dot->append(row.value, y);
    dot->setMarkerShape(QScatterSeries::MarkerShapeCircle);
    dot->setMarkerSize(15);
    dot->setBrush(row.kind == Metal::gold ? inks.gold : inks.ground);
    dot->setPen(QPen(row.kind == Metal::gold ? inks.ink : inks.silver, row.kind == Metal::gold ? 1.5 : 2.5));
    attach(dot);
  }

  // Below the mean, so that they stay apart from it.
  void add_dots(const std::vector<double>& values, double y) {
    auto* dots = new QScatterSeries;
    for (const double value : values)
      if (std::isfinite(value)) dots->append(value, y + 1.6 * cap);
    dots->setMarkerShape(QScatterSeries::MarkerShapeCircle);
    dots->setMarkerSize(7);
    dots->setBrush(inks.ink);
    dots->setPen(QPen(inks.ground, 1));
    attach(dots);
  }

  double label_width() const {
    const QFontMetricsF bold(face(TextSize::body, Weight::bold)), small(face(TextSize::small));
    double width = 6 * rhythm;
    for (const int i : shown) {
      const IntervalRow& row = picture.rows[std::size_t(i)];
      width = std::max({width, bold.horizontalAdvance(row.label), small.horizontalAdvance(metal_word(row.kind))});
    }
    return width + 3 * rhythm;
  }

  double top_band() const { return picture.gap && !picture.gap_words.isEmpty() ? gap_band : rhythm; }
  double x_of(double value) const { return plot.x() + (value - scale.from) / (scale.to - scale.from) * plot.width(); }
  double row_top(std::size_t line) const {
    return plot.y() + double(line) * plot.height() / std::max<double>(1, double(shown.size()));
  }

  // Centred on `x`, pushed back where it would leave the drawing.
  void centred(QPainter& painter, double x, double base, const QString& words) const {
    const double width = QFontMetricsF(painter.font()).horizontalAdvance(words);
    const double least = plot.x() - 2 * rhythm;
    const double from = std::clamp(x - width / 2, least, std::max(least, area.right() - width));
    painter.drawText(QPointF(from, base), words);
  }

  void paint_axis(QPainter& painter) const {
    painter.setFont(face(TextSize::small));
    const double base = plot.bottom() + 24;
    const int steps = std::min(20, int(std::lround((scale.to - scale.from) / scale.step)));
    for (int i = 0; i <= steps; ++i) {
      const double at = scale.from + i * scale.step, x = x_of(at);
      painter.setPen(QPen(inks.rule, 1));
      painter.drawLine(QPointF(x, plot.top()), QPointF(x, plot.bottom()));
      painter.setPen(QPen(inks.line, 1));
      painter.drawLine(QPointF(x, plot.bottom()), QPointF(x, plot.bottom() + 5));
      painter.setPen(inks.quiet);
      centred(painter, x, base, figure(fixed(at, scale.decimals), {}, picture.mark).number);
    }
    painter.setPen(QPen(inks.line, 1));
    painter.drawLine(plot.bottomLeft(), plot.bottomRight());
    painter.setPen(inks.quiet);
    painter.drawText(QPointF(area.x(), base), picture.unit);
  }

  void paint_words(QPainter& painter) const {
    for (std::size_t line = 0; line < shown.size(); ++line) {
      const IntervalRow& row = picture.rows[std::size_t(shown[line])];
      const double base = row_top(line) + mark_at;
      painter.setPen(inks.ink);
      painter.setFont(face(TextSize::body, Weight::bold));
      painter.drawText(QPointF(area.x(), base + 2), row.label);
      painter.setFont(face(TextSize::small));
      painter.setPen(inks.quiet);
      painter.drawText(QPointF(area.x(), base + 20), metal_word(row.kind));
      painter.setFont(face(TextSize::body));
      painter.setPen(inks.ink);
      centred(painter, x_of(row.value), base - 16, row.words);
    }
    painter.setFont(face(TextSize::small));
    if (!picture.gap || picture.gap_words.isEmpty()) return;
    painter.setPen(inks.ink);
    centred(painter, x_of((picture.gap->first + picture.gap->second) / 2), area.y() + 20, picture.gap_words);
  }
};

IntervalDrawing::IntervalDrawing(IntervalPicture picture, const Inks& inks)
    : parts_(std::make_unique<Parts>(std::move(picture), inks)) {}
IntervalDrawing::~IntervalDrawing() = default;

int IntervalDrawing::natural_height() const {
  return int(parts_->top_band()) + interval_row * int(std::max<std::size_t>(1, parts_->shown.size())) + axis_band;
}

void IntervalDrawing::paint(QPainter& painter, const QRectF& area) {
  Parts& parts = *parts_;
  parts.area = area;
  const double left = parts.label_width();
  const QRectF inner(left, parts.top_band(), std::max(1.0, area.width() - left - right_room),
                     std::max(1.0, area.height() - parts.top_band() - axis_band));
  parts.plot = inner.translated(area.topLeft());
  parts.chart->resize(area.size());
  parts.chart->setPlotArea(inner);
  parts.scene.setSceneRect(QRectF(QPointF(), area.size()));
  painter.save();
  painter.setRenderHint(QPainter::Antialiasing);
  parts.paint_axis(painter);
  parts.scene.render(&painter, area, QRectF(QPointF(), area.size()), Qt::IgnoreAspectRatio);
  parts.paint_words(painter);
  painter.restore();
}

double IntervalDrawing::x_of(double value) const { return parts_->x_of(value); }

QRectF IntervalDrawing::row_area(int row) const {
  const auto found = std::find(parts_->shown.begin(), parts_->shown.end(), row);
  if (found == parts_->shown.end()) return {};
  const auto line = std::size_t(found - parts_->shown.begin());
  return {parts_->plot.x(), parts_->row_top(line), parts_->plot.width(), parts_->row_top(line + 1) - parts_->row_top(line)};
}

double IntervalDrawing::scale_from() const { return parts_->scale.from; }
double IntervalDrawing::scale_to() const { return parts_->scale.to; }

QString IntervalDrawing::described() const {
  QStringList sentences;
  for (const int i : parts_->shown) {
    const IntervalRow& row = parts_->picture.rows[std::size_t(i)];
    sentences << QStringLiteral("%1, %2: %3").arg(row.label, metal_word(row.kind), row.words);
  }
  if (!parts_->picture.gap_words.isEmpty()) sentences << parts_->picture.gap_words;
  return sentences.join(QStringLiteral("; "));
}

IntervalScale::IntervalScale(QWidget* parent) : QWidget(parent) {
  setSizePolicy(QSizePolicy::Expanding, QSizePolicy::Fixed);
  rebuild();
}

IntervalScale::~IntervalScale() = default;

void IntervalScale::set_picture(IntervalPicture picture) {
  picture_ = std::move(picture);
  rebuild();
}

void IntervalScale::rebuild() {
  drawing_ = std::make_unique<IntervalDrawing>(picture_, inks());
  setAccessibleName(drawing_->described());
  updateGeometry();
  update();
}

QSize IntervalScale::sizeHint() const { return {80 * rhythm, drawing_->natural_height()}; }
QSize IntervalScale::minimumSizeHint() const { return {40 * rhythm, drawing_->natural_height()}; }

void IntervalScale::paintEvent(QPaintEvent*) {
  QPainter painter(this);
  drawing_->paint(painter, rect());
}

void IntervalScale::changeEvent(QEvent* event) {
  QWidget::changeEvent(event);
  if (event->type() == QEvent::PaletteChange) rebuild();
}

}  // namespace prillbook::ui
