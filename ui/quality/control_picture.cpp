// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/quality/control_picture.h"

#include <QtCharts/QChart>
#include <QtCharts/QLineSeries>
#include <QtCharts/QScatterSeries>
#include <QtCharts/QValueAxis>
#include <QtCore/QEvent>
#include <QtGui/QPainter>
#include <QtWidgets/QGraphicsLayout>
#include <QtWidgets/QGraphicsScene>
#include <algorithm>

#include "core/assay/rounding.h"
#include "ui/kit/figures.h"
#include "ui/kit/sentences.h"
#include "ui/kit/theme.h"

namespace prillbook::ui {
namespace {

constexpr int edge_left = 10 * rhythm, edge_right = 14 * rhythm, edge_top = 4 * rhythm, edge_bottom = 4 * rhythm;
constexpr int narrowest_date = 12 * rhythm;

double gold_of(const results::SingleTest& point) { return point.gold()->g_t(); }

bool is_flagged(const results::ControlChart& chart, std::size_t point, bool& rejected) {
  bool flagged = false;
  for (const results::ChartSignal& signal : chart.alarms)
    if (signal.point == point) flagged = true, rejected = rejected || signal.rejects;
  return flagged;
}

void put(QChart& chart, QValueAxis* across, QValueAxis* up, QXYSeries* series) {
  chart.addSeries(series);
  series->attachAxis(across);
  series->attachAxis(up);
}

}  // namespace

ControlPicture::ControlPicture(QWidget* parent) : QWidget(parent) {
  setSizePolicy(QSizePolicy::Expanding, QSizePolicy::Fixed);
  show_chart({}, {}, DecimalMark::point);
}

void ControlPicture::show_chart(results::ControlChart chart, std::optional<double> blank_limit, DecimalMark mark) {
  chart_ = std::move(chart);
  blank_limit_ = blank_limit;
  mark_ = mark;
  find_range();
  QStringList words;
  for (std::size_t i = 0; i < chart_.points.size(); ++i) {
    QString one = QStringLiteral("%1: %2 g/t")
                      .arg(to_qt(chart_.points[i].label), to_qt(written(gold_of(chart_.points[i]), {}, 0.001, mark)));
    for (const results::ChartSignal& signal : chart_.alarms)
      if (signal.point == i) one += QStringLiteral(", ") + to_qt(signal.rule);
    words << one;
  }
  setAccessibleName(words.isEmpty() ? tr("No result to draw yet.") : words.join(QStringLiteral("; ")));
  update();
}

std::vector<ControlPicture::Line> ControlPicture::lines() const {
  std::vector<Line> list;
  if (blank_limit_) list = {{0, tr("no gold"), true}, {*blank_limit_, tr("limit")}};
  if (!chart_.limits) return list;
  const results::ChartLimits& limits = *chart_.limits;
  list.push_back({limits.target, limits.certified ? tr("certified") : tr("own mean")});
  for (const int s : {2, 3})
    for (const int side : {-1, 1})
      list.push_back({limits.target + side * s * limits.sd,
                      QStringLiteral("%1%2 s").arg(side < 0 ? QChar(0x2212) : QChar('+')).arg(s), s == 2});
  return list;
}

void ControlPicture::find_range() {
  low_ = blank_limit_ ? 0 : 1e300;
  high_ = blank_limit_ ? *blank_limit_ : -1e300;
  for (const results::SingleTest& point : chart_.points) {
    low_ = std::min(low_, gold_of(point));
    high_ = std::max(high_, gold_of(point));
  }
  for (const Line& line : lines()) low_ = std::min(low_, line.at), high_ = std::max(high_, line.at);
  if (!(high_ > low_)) low_ -= 1, high_ = low_ + 2;
  const double margin = (high_ - low_) / 12;
  high_ += margin;
  low_ -= margin;
}

QSize ControlPicture::sizeHint() const { return {70 * rhythm, 32 * rhythm}; }
QSize ControlPicture::minimumSizeHint() const { return {40 * rhythm, 28 * rhythm}; }

double ControlPicture::x_of(std::size_t point, const QRectF& plot) const {
  return plot.left() + (double(point) + 0.5) / double(std::max<std::size_t>(1, chart_.points.size())) * plot.width();
}

double ControlPicture::y_of(double grade, const QRectF& plot) const {
  return plot.bottom() - (grade - low_) / (high_ - low_) * plot.height();
}

void ControlPicture::draw_lines(QPainter& painter, const QRectF& plot) const {
  const Inks& ink = inks();
  const QFontMetricsF metrics(painter.font());
  const auto all = lines();
  double step = high_ - low_;
  for (const Line& line : all)
    for (const Line& other : all)
      if (line.at != other.at) step = std::min(step, std::abs(line.at - other.at));
  for (const Line& line : all) {
    const double y = y_of(line.at, plot);
    painter.setPen(QPen(line.dashed ? ink.quiet : ink.line, line.dashed ? 1 : 1.6, line.dashed ? Qt::DashLine : Qt::SolidLine));
    painter.drawLine(QPointF(plot.left(), y), QPointF(plot.right(), y));
    painter.setPen(ink.quiet);
    painter.drawText(QPointF(plot.right() + rhythm, y + metrics.ascent() / 2 - 2), line.words);
    const QString number = to_qt(rounded(line.at, decimals_for_step(step / 10), mark_));
    painter.drawText(QPointF(plot.left() - metrics.horizontalAdvance(number) - rhythm, y + metrics.ascent() / 2 - 2), number);
  }
  painter.drawText(QPointF(rhythm, plot.top() - 2 * rhythm), tr("g/t gold"));
}

// Dots by Qt Charts; a ring round those that break a rule, open for a warning.
void ControlPicture::draw_points(QPainter& painter, const QRectF& plot) const {
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
  across->setRange(0, double(chart_.points.size()));
  up->setRange(low_, high_);
  for (QValueAxis* axis : {across, up}) axis->setVisible(false);
  chart->addAxis(across, Qt::AlignBottom);
  chart->addAxis(up, Qt::AlignLeft);
  auto* path = new QLineSeries;
  auto* dots = new QScatterSeries;
  auto* warned = new QScatterSeries;
  auto* broken = new QScatterSeries;
  for (std::size_t i = 0; i < chart_.points.size(); ++i) {
    const QPointF at(double(i) + 0.5, gold_of(chart_.points[i]));
    bool rejected = blank_limit_ && at.y() > *blank_limit_;
    const bool flagged = is_flagged(chart_, i, rejected) || rejected;
    path->append(at);
    dots->append(at);
    if (flagged) (rejected ? broken : warned)->append(at);
  }
  path->setPen(QPen(ink.rule, 1.2));
  dots->setMarkerSize(8);
  dots->setBrush(ink.ink);
  dots->setPen(QPen(ink.ground, 1));
  for (QScatterSeries* rings : {warned, broken}) {
    rings->setMarkerSize(17);
    rings->setBrush(Qt::NoBrush);
  }
  warned->setPen(QPen(ink.quiet, 1.5));
  broken->setPen(QPen(ink.signal, 2.4));
  for (QXYSeries* series : {static_cast<QXYSeries*>(path), static_cast<QXYSeries*>(warned), static_cast<QXYSeries*>(broken),
                            static_cast<QXYSeries*>(dots)})
    put(*chart, across, up, series);
  chart->resize(size());
  chart->setPlotArea(plot);
  scene.setSceneRect(QRectF(QPointF(), QSizeF(size())));
  scene.render(&painter, rect(), scene.sceneRect(), Qt::IgnoreAspectRatio);
}

// The rules broken above their points, and the days below where there is room.
void ControlPicture::draw_names(QPainter& painter, const QRectF& plot) const {
  const QFontMetricsF metrics(painter.font());
  const auto centred = [&](double x, double y, const QString& words) {
    painter.drawText(QPointF(x - metrics.horizontalAdvance(words) / 2, y), words);
  };
  const auto on_paper = [&](double x, double y, const QString& words) {
    const double width = metrics.horizontalAdvance(words);
    painter.fillRect(QRectF(x - width / 2 - 3, y - metrics.ascent(), width + 6, metrics.ascent() + 3), inks().ground);
    centred(x, y, words);
  };
  painter.setPen(inks().ink);
  for (std::size_t i = 0; i < chart_.points.size(); ++i) {
    QStringList rules;
    for (const results::ChartSignal& signal : chart_.alarms)
      if (signal.point == i) rules << to_qt(signal.rule);
    if (blank_limit_ && gold_of(chart_.points[i]) > *blank_limit_) rules << tr("outside");
    if (!rules.isEmpty()) on_paper(x_of(i, plot), y_of(gold_of(chart_.points[i]), plot) - 14, rules.join(QStringLiteral(", ")));
  }
  painter.setPen(inks().quiet);
  double free_from = 0;
  for (std::size_t i = 0; i < chart_.points.size(); ++i) {
    if (!chart_.points[i].when || x_of(i, plot) < free_from) continue;
    QString day = date_text(*chart_.points[i].when);
    day.chop(5);  // the year
    centred(x_of(i, plot), plot.bottom() + 22, day);
    free_from = x_of(i, plot) + narrowest_date;
  }
}

void ControlPicture::paintEvent(QPaintEvent*) {
  QPainter painter(this);
  painter.setRenderHint(QPainter::Antialiasing);
  painter.setFont(face(TextSize::small));
  const QRectF plot(edge_left, edge_top, std::max(1, width() - edge_left - edge_right),
                    std::max(1, height() - edge_top - edge_bottom));
  if (chart_.points.empty()) {
    painter.setPen(inks().quiet);
    painter.drawText(plot, Qt::AlignCenter | Qt::TextWordWrap,
                     tr("Each result is drawn here once its gold is known, against the value and its limits."));
    return;
  }
  draw_lines(painter, plot);
  draw_points(painter, plot);
  draw_names(painter, plot);
}

void ControlPicture::changeEvent(QEvent* event) {
  QWidget::changeEvent(event);
  if (event->type() == QEvent::PaletteChange) update();
}

}  // namespace prillbook::ui
