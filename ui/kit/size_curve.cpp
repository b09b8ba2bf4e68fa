// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/kit/size_curve.h"

#include <QtCharts/QChart>
#include <QtCharts/QLineSeries>
#include <QtCharts/QLogValueAxis>
#include <QtCharts/QScatterSeries>
#include <QtCharts/QValueAxis>
#include <QtCore/QBuffer>
#include <QtCore/QEvent>
#include <QtGui/QPainter>
#include <QtSvg/QSvgGenerator>
#include <QtWidgets/QGraphicsLayout>
#include <QtWidgets/QGraphicsScene>
#include <algorithm>
#include <cmath>

#include "core/store/part_file.h"
#include "ui/kit/figures.h"

namespace prillbook::ui {
namespace {

constexpr int left_band = 5 * rhythm, top_band = 4 * rhythm, bottom_band = 4 * rhythm, right_band = 3 * rhythm;
constexpr QSize file_size(1200, 800);
constexpr double margin_pct = 2;  // so that dots at 0 and 100 % are whole

bool drawable_point(const CurvePoint& point) {
  return std::isfinite(point.um) && std::isfinite(point.passing_pct) && point.um > 0 && point.um < 1e9;
}

std::vector<CurvePoint> in_order(const SizeCurve& curve) {
  std::vector<CurvePoint> points;
  std::copy_if(curve.points.begin(), curve.points.end(), std::back_inserter(points), drawable_point);
  std::sort(points.begin(), points.end(), [](const CurvePoint& a, const CurvePoint& b) { return a.um < b.um; });
  return points;
}

// Sizes at 1, 2 and 5 times powers of ten; 1 alone where the axis is long.
std::vector<double> ticks_between(double from, double to) {
  std::vector<double> ticks;
  const bool longer = to / from > 300;
  for (double power = std::pow(10, std::floor(std::log10(from))); power <= to; power *= 10)
    for (const double step : {1.0, 2.0, 5.0})
      if ((step == 1 || !longer) && step * power >= from && step * power <= to) ticks.push_back(step * power);
  return ticks;
}

QString size_text(double um, DecimalMark mark) {
  return um >= 1000 ? text(figure(shortest(um / 1000), "mm", mark)) : text(figure(shortest(um), "µm", mark));
}

}  // namespace

struct CurveDrawing::Parts {
  CurvePicture picture;
  Inks inks;
  QGraphicsScene scene;
  QChart* chart = new QChart;
  QLogValueAxis* across = new QLogValueAxis;
  QValueAxis* up = new QValueAxis;
  QRectF plot, area;
  double from = 10, to = 1000;
  int drawn = 0;

  Parts(CurvePicture given, const Inks& given_inks) : picture(std::move(given)), inks(given_inks) {
    find_range();
    set_up_chart();
    for (std::size_t i = 0; i < picture.laws.size(); ++i) add_line(picture.laws[i], law_pen(i));
    for (std::size_t i = picture.curves.size(); i-- > 1;) {
      add_line(picture.curves[i], QPen(inks.quiet, 1.4, pattern(i)));
      add_dots(picture.curves[i], 6, inks.ground, QPen(inks.quiet, 1.2));
    }
    if (picture.curves.empty()) return;
    const SizeCurve& in_hand = picture.curves.front();
    add_line(in_hand, QPen(inks.ink, 2.2, in_hand.provisional ? Qt::DashLine : Qt::SolidLine));
    add_dots(in_hand, 9, inks.ink, QPen(inks.ground, 1.2));
  }

  static Qt::PenStyle pattern(std::size_t i) { return i % 2 ? Qt::DashLine : Qt::DashDotLine; }
  // The first dotted, the next in long strokes: told apart without their colour.
  QPen law_pen(std::size_t i) const {
    QPen pen(inks.accent, 1.2, Qt::DotLine);
    if (i % 2) pen.setDashPattern({10, 4});
    return pen;
  }

  void find_range() {
    double least = 1e300, most = 0;
    for (const SizeCurve& curve : picture.curves)
      for (const CurvePoint& point : in_order(curve)) {
        least = std::min(least, point.um), most = std::max(most, point.um);
        ++drawn;
      }
    if (drawn == 0) return;
    from = least / 1.35;
    to = std::max(most * 1.35, from * 3);
  }

  void set_up_chart() {
    scene.addItem(chart);
    chart->legend()->hide();
    chart->setBackgroundVisible(false);
    chart->setPlotAreaBackgroundVisible(false);
    chart->setMargins(QMargins());
    chart->layout()->setContentsMargins(0, 0, 0, 0);
    across->setBase(10);
    across->setRange(from, to);
    up->setRange(-margin_pct, 100 + margin_pct);
    for (QAbstractAxis* axis : {static_cast<QAbstractAxis*>(across), static_cast<QAbstractAxis*>(up)}) axis->setVisible(false);
    chart->addAxis(across, Qt::AlignBottom);
    chart->addAxis(up, Qt::AlignLeft);
  }

  void attach(QAbstractSeries* series) {
    chart->addSeries(series);
    series->attachAxis(across);
    series->attachAxis(up);
  }

  void add_line(const SizeCurve& curve, const QPen& pen) {
    auto* series = new QLineSeries;
    for (const CurvePoint& point : in_order(curve)) series->append(point.um, point.passing_pct);
    series->setPen(pen);
    attach(series);
  }

  void add_dots(const SizeCurve& curve, double size, const QColor& fill, const QPen& pen) {
    auto* dots = new QScatterSeries;
    for (const CurvePoint& point : in_order(curve)) dots->append(point.um, point.passing_pct);
    dots->setMarkerShape(QScatterSeries::MarkerShapeCircle);
    dots->setMarkerSize(size);
    dots->setBrush(fill);
    dots->setPen(pen);
    attach(dots);
  }

  double x_of(double um) const { return plot.x() + std::log(um / from) / std::log(to / from) * plot.width(); }
  double y_of(double pct) const { return plot.bottom() - (pct + margin_pct) / (100 + 2 * margin_pct) * plot.height(); }

  void paint_axes(QPainter& painter) const {
    painter.setFont(face(TextSize::small));
    const QFontMetricsF metrics(painter.font());
    double free_from = -1e9;
    for (const double tick : ticks_between(from, to)) {
      const double x = x_of(tick);
      painter.setPen(QPen(inks.rule, 1));
      painter.drawLine(QPointF(x, plot.top()), QPointF(x, plot.bottom()));
      const QString words = size_text(tick, picture.mark);
      const double width = metrics.horizontalAdvance(words);
      if (x - width / 2 < free_from) continue;
      free_from = x + width / 2 + rhythm;
      painter.setPen(inks.quiet);
      painter.drawText(QPointF(x - width / 2, plot.bottom() + 22), words);
    }
    for (const int pct : {0, 20, 40, 60, 80, 100}) {
      const double y = y_of(pct);
      painter.setPen(QPen(pct == 0 ? inks.line : inks.rule, 1));
      painter.drawLine(QPointF(plot.left(), y), QPointF(plot.right(), y));
      painter.setPen(inks.quiet);
      const QString words = QString::number(pct);
      painter.drawText(QPointF(plot.left() - metrics.horizontalAdvance(words) - rhythm, y + 5), words);
    }
    painter.drawText(QPointF(area.x(), plot.top() - 14), CurveView::tr("passing, %"));
  }

  void paint_marks(QPainter& painter) const {
    painter.setFont(face(TextSize::small, Weight::bold));
    const QFontMetricsF metrics(painter.font());
    for (const SizeMark& mark : picture.marks) {
      if (!drawable_point({mark.um, mark.passing_pct})) continue;
      const QPointF at(x_of(mark.um), y_of(mark.passing_pct));
      painter.setPen(QPen(inks.accent, 1, Qt::DashLine));
      painter.drawLine(QPointF(plot.left(), at.y()), at);
      painter.drawLine(at, QPointF(at.x(), plot.bottom()));
      painter.setPen(QPen(inks.accent, 2));
      painter.setBrush(inks.ground);
      painter.drawEllipse(at, 5, 5);
      const double width = metrics.horizontalAdvance(mark.words);
      const bool right = at.x() + width + 2 * rhythm < plot.right() && at.x() < plot.left() + width + 2 * rhythm;
      painter.setPen(inks.ink);
      painter.drawText(QPointF(right ? at.x() + rhythm : at.x() - width - rhythm, at.y() + (right ? 20 : -7)), mark.words);
    }
  }

  // Names of the curves, each behind a piece of its line; only where there is more than one line.
  void paint_names(QPainter& painter) const {
    if (picture.curves.size() + picture.laws.size() < 2) return;
    painter.setFont(face(TextSize::small));
    const QFontMetricsF metrics(painter.font());
    double y = plot.bottom() - rhythm - 20 * double(picture.curves.size() + picture.laws.size() - 1);
    double width = 0;
    for (const auto* list : {&picture.curves, &picture.laws})
      for (const SizeCurve& curve : *list) width = std::max(width, metrics.horizontalAdvance(curve.label));
    const double x = plot.right() - width - 5 * rhythm;
    painter.fillRect(QRectF(x - rhythm, y - 18, plot.right() - x + rhythm, plot.bottom() - y + 16), inks.ground);
    const auto name = [&](const QString& words, const QPen& pen) {
      painter.setPen(pen);
      painter.drawLine(QPointF(x, y - 5), QPointF(x + 4 * rhythm, y - 5));
      painter.setPen(inks.ink);
      painter.drawText(QPointF(x + 5 * rhythm, y), words);
      y += 20;
    };
    for (std::size_t i = 0; i < picture.curves.size(); ++i)
      name(picture.curves[i].label, i == 0 ? QPen(inks.ink, 2.2) : QPen(inks.quiet, 1.4, pattern(i)));
    for (std::size_t i = 0; i < picture.laws.size(); ++i) name(picture.laws[i].label, law_pen(i));
  }

  void paint_empty(QPainter& painter) const {
    painter.setFont(face(TextSize::body));
    painter.setPen(inks.quiet);
    painter.drawText(plot.adjusted(rhythm, 0, -rhythm, 0), Qt::AlignCenter | Qt::TextWordWrap, picture.empty_words);
  }
};

CurveDrawing::CurveDrawing(CurvePicture picture, const Inks& inks) : parts_(std::make_unique<Parts>(std::move(picture), inks)) {}
CurveDrawing::~CurveDrawing() = default;

void CurveDrawing::paint(QPainter& painter, const QRectF& area) {
  Parts& parts = *parts_;
  parts.area = area;
  const QRectF inner(left_band, top_band, std::max(1.0, area.width() - left_band - right_band),
                     std::max(1.0, area.height() - top_band - bottom_band));
  parts.plot = inner.translated(area.topLeft());
  painter.save();
  painter.setRenderHint(QPainter::Antialiasing);
  parts.paint_axes(painter);
  if (parts.drawn == 0) {
    parts.paint_empty(painter);
  } else {
    parts.chart->resize(area.size());
    parts.chart->setPlotArea(inner);
    parts.scene.setSceneRect(QRectF(QPointF(), area.size()));
    parts.scene.render(&painter, area, QRectF(QPointF(), area.size()), Qt::IgnoreAspectRatio);
    parts.paint_marks(painter);
    parts.paint_names(painter);
  }
  painter.restore();
}

double CurveDrawing::x_of(double um) const { return parts_->x_of(um); }
double CurveDrawing::y_of(double passing_pct) const { return parts_->y_of(passing_pct); }
int CurveDrawing::points_drawn() const { return parts_->drawn; }

QString CurveDrawing::described() const {
  if (parts_->drawn == 0) return parts_->picture.empty_words;
  QStringList sentences;
  for (const SizeCurve& curve : parts_->picture.curves) {
    QStringList points;
    for (const CurvePoint& point : in_order(curve))
      points << CurveView::tr("%1 % pass %2")
                    .arg(QString::number(qRound(point.passing_pct)), size_text(point.um, parts_->picture.mark));
    sentences << QStringLiteral("%1: %2").arg(curve.label, points.join(QStringLiteral(", ")));
  }
  for (const SizeMark& mark : parts_->picture.marks) sentences << mark.words;
  return sentences.join(QStringLiteral("; "));
}

CurveView::CurveView(QWidget* parent) : QWidget(parent) {
  setSizePolicy(QSizePolicy::Expanding, QSizePolicy::Fixed);
  set_picture({});
}
CurveView::~CurveView() = default;

void CurveView::set_picture(CurvePicture picture) {
  picture_ = std::move(picture);
  setAccessibleName(CurveDrawing(picture_, inks()).described());
  update();
}

QSize CurveView::sizeHint() const { return {50 * rhythm, 38 * rhythm}; }
QSize CurveView::minimumSizeHint() const { return {36 * rhythm, 38 * rhythm}; }

void CurveView::paintEvent(QPaintEvent*) {
  QPainter painter(this);
  CurveDrawing(picture_, inks()).paint(painter, rect());
}

void CurveView::changeEvent(QEvent* event) {
  QWidget::changeEvent(event);
  if (event->type() == QEvent::PaletteChange) update();
}

namespace {

void paint_on_white(QPainter& painter, const CurvePicture& picture) {
  const QRectF whole(QPointF(), QSizeF(file_size) / 1.5);
  painter.fillRect(whole, Qt::white);
  Inks inks = light_inks();
  inks.ground = Qt::white;
  CurveDrawing(picture, inks).paint(painter, whole.adjusted(2 * rhythm, 2 * rhythm, -rhythm, -rhythm));
}

}  // namespace

QImage curve_image(const CurvePicture& picture) {
  QImage image(file_size, QImage::Format_RGB32);
  image.fill(Qt::white);
  QPainter painter(&image);
  painter.scale(1.5, 1.5);
  paint_on_white(painter, picture);
  return image;
}

Result<void> write_curve_png(const CurvePicture& picture, const QString& path) {
  QByteArray bytes;
  QBuffer buffer(&bytes);
  buffer.open(QIODevice::WriteOnly);
  if (!curve_image(picture).save(&buffer, "PNG")) return Error{ErrorCode::not_finite, "path", "the picture can't be encoded", {}};
  return store::write_whole(path.toStdString(), bytes.toStdString());
}

Result<void> write_curve_svg(const CurvePicture& picture, const QString& path) {
  QByteArray bytes;
  QBuffer buffer(&bytes);
  buffer.open(QIODevice::WriteOnly);
  QSvgGenerator generator;
  generator.setOutputDevice(&buffer);
  generator.setSize(file_size / 1.5);
  generator.setViewBox(QRectF(QPointF(), QSizeF(file_size) / 1.5));
  generator.setTitle(CurveView::tr("Sieve curve"));
  {
    QPainter painter(&generator);
    paint_on_white(painter, picture);
  }
  return store::write_whole(path.toStdString(), bytes.toStdString());
}

}  // namespace prillbook::ui
