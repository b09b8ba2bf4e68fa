// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/furnace/temperature_chart.h"

#include <QtCharts/QChart>
#include <QtCharts/QLineSeries>
#include <QtCharts/QScatterSeries>
#include <QtCharts/QValueAxis>
#include <QtCore/QEvent>
#include <QtGui/QPainter>
#include <QtWidgets/QGraphicsLayout>
#include <QtWidgets/QGraphicsScene>
#include <algorithm>
#include <cmath>

#include "ui/kit/figures.h"
#include "ui/kit/theme.h"

namespace prillbook::ui {
namespace {

constexpr int band_left = 7 * rhythm, band_top = 4 * rhythm, band_bottom = 4 * rhythm, band_right = 3 * rhythm;

struct TimeSpan {
  double from = 0, to = 1, low = 0, high = 100;  // minutes, °C
};

double minutes_of(const fire::RunReading& reading, const fire::RunReading& first) {
  return double(reading.read_at.utc_ms - first.read_at.utc_ms) / 60000;
}

TimeSpan span_of(const std::vector<fire::RunReading>& readings) {
  TimeSpan span;
  double low = 1e9, high = -1e9;
  for (const fire::RunReading& one : readings) {
    span.to = std::max(span.to, minutes_of(one, readings.front()));
    for (const auto& celsius : {one.set_c, one.read_c})
      if (celsius) low = std::min(low, double(*celsius)), high = std::max(high, double(*celsius));
  }
  if (high < low) return span;
  const double margin = (span.to - span.from) / 60;  // so that the dots at the ends are whole
  span.from -= margin;
  span.to += margin;
  span.low = std::floor((low - 20) / 100) * 100;
  span.high = std::max(std::ceil((high + 20) / 100) * 100, span.low + 100);
  return span;
}

// Steps of 1, 2 and 5 times powers of ten, at most about six.
double step_for(double range) {
  double power = std::pow(10, std::floor(std::log10(range / 6)));
  for (const double step : {1.0, 2.0, 5.0, 10.0})
    if (range / (step * power) <= 6) return step * power;
  return 10 * power;
}

void add_series(QChart& chart, QValueAxis* across, QValueAxis* up, QXYSeries* series) {
  chart.addSeries(series);
  series->attachAxis(across);
  series->attachAxis(up);
}

}  // namespace

TemperatureChart::TemperatureChart(QWidget* parent) : QWidget(parent) {
  setSizePolicy(QSizePolicy::Expanding, QSizePolicy::Fixed);
  show_readings({});
}
TemperatureChart::~TemperatureChart() = default;

void TemperatureChart::show_readings(std::vector<fire::RunReading> readings) {
  readings_ = std::move(readings);
  drawn_ = 0;
  QStringList words;
  for (const fire::RunReading& one : readings_)
    if (one.read_c || one.set_c) {
      ++drawn_;
      words << tr("%1: set %2, read %3 °C")
                   .arg(time_text(one.read_at), one.set_c ? QString::number(*one.set_c) : tr("nothing"),
                        one.read_c ? QString::number(*one.read_c) : tr("nothing"));
    }
  setAccessibleName(drawn_ == 0 ? tr("No temperature was read in this run yet.") : words.join(QStringLiteral("; ")));
  update();
}

QSize TemperatureChart::sizeHint() const { return {50 * rhythm, 32 * rhythm}; }
QSize TemperatureChart::minimumSizeHint() const { return {30 * rhythm, 26 * rhythm}; }

void TemperatureChart::paintEvent(QPaintEvent*) {
  QPainter painter(this);
  painter.setRenderHint(QPainter::Antialiasing);
  const Inks& ink = inks();
  const QRectF plot(band_left, band_top, std::max(1, width() - band_left - band_right),
                    std::max(1, height() - band_top - band_bottom));
  painter.setFont(face(TextSize::small));
  if (drawn_ == 0) {
    painter.setPen(ink.quiet);
    painter.drawText(plot, Qt::AlignCenter | Qt::TextWordWrap, tr("The curve is drawn as temperatures are written down."));
    return;
  }
  const TimeSpan span = span_of(readings_);
  const QFontMetricsF metrics(painter.font());
  const double c_step = step_for(span.high - span.low), m_step = step_for(span.to - span.from);
  for (double c = span.low; c <= span.high + 1e-6; c += c_step) {
    const double y = plot.bottom() - (c - span.low) / (span.high - span.low) * plot.height();
    painter.setPen(QPen(ink.rule, 1));
    painter.drawLine(QPointF(plot.left(), y), QPointF(plot.right(), y));
    painter.setPen(ink.quiet);
    const QString words = QString::number(qRound(c));
    painter.drawText(QPointF(plot.left() - metrics.horizontalAdvance(words) - rhythm, y + 5), words);
  }
  for (double m = 0; m <= span.to; m += m_step) {
    const double x = plot.left() + (m - span.from) / (span.to - span.from) * plot.width();
    painter.setPen(ink.quiet);
    fire::RunReading at = readings_.front();
    at.read_at.utc_ms += std::int64_t(m * 60000);
    const QString words = time_text(at.read_at);
    painter.drawText(QPointF(x - metrics.horizontalAdvance(words) / 2, plot.bottom() + 22), words);
  }
  painter.drawText(QPointF(rhythm, plot.top() - 14), tr("°C; dots read, dashes set"));

  QGraphicsScene scene;
  auto* chart = new QChart;
  scene.addItem(chart);
  chart->legend()->hide();
  chart->setBackgroundVisible(false);
  chart->setMargins(QMargins());
  chart->layout()->setContentsMargins(0, 0, 0, 0);
  auto* across = new QValueAxis;
  auto* up = new QValueAxis;
  across->setRange(span.from, span.to);
  up->setRange(span.low, span.high);
  for (QValueAxis* axis : {across, up}) axis->setVisible(false);
  chart->addAxis(across, Qt::AlignBottom);
  chart->addAxis(up, Qt::AlignLeft);
  auto* set = new QLineSeries;
  auto* read = new QLineSeries;
  auto* dots = new QScatterSeries;
  for (const fire::RunReading& one : readings_) {
    const double minutes = minutes_of(one, readings_.front());
    if (one.set_c) set->append(minutes, double(*one.set_c));
    if (!one.read_c) continue;
    read->append(minutes, double(*one.read_c));
    dots->append(minutes, double(*one.read_c));
  }
  set->setPen(QPen(ink.quiet, 1.6, Qt::DashLine));
  read->setPen(QPen(ink.ink, 2));
  dots->setMarkerSize(8);
  dots->setBrush(ink.ink);
  dots->setPen(QPen(ink.ground, 1));
  for (QXYSeries* series : {static_cast<QXYSeries*>(set), static_cast<QXYSeries*>(read), static_cast<QXYSeries*>(dots)})
    add_series(*chart, across, up, series);
  chart->resize(size());
  chart->setPlotArea(plot);
  scene.setSceneRect(QRectF(QPointF(), QSizeF(size())));
  scene.render(&painter, rect(), scene.sceneRect(), Qt::IgnoreAspectRatio);
}

void TemperatureChart::changeEvent(QEvent* event) {
  QWidget::changeEvent(event);
  if (event->type() == QEvent::PaletteChange) update();
}

}  // namespace prillbook::ui
