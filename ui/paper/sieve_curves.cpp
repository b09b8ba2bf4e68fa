// SPDX-License-Identifier: GPL-3.0-or-later
// Sieve curves on a logarithmic axis of size, one style of line each.
#include <algorithm>
#include <cmath>

#include "core/assay/rounding.h"
#include "core/sieving/sieve_name.h"
#include "core/units/units.h"
#include "ui/paper/blocks.h"

namespace prillbook::paper {
namespace {

using summary::SieveCurve;
using summary::SievePicture;

constexpr double plot_height = 1500, names_width = 1100, figures_width = 330, dot_radius = 24;

struct SizeScale {
  double left, right, top, bottom, from, to;
  double x(double um) const { return left + (right - left) * std::log(um / from) / std::log(to / from); }
  double y(double passing_pct) const { return bottom - (bottom - top) * std::clamp(passing_pct, 0.0, 100.0) / 100; }
};

bool drawable(const std::pair<double, double>& point) {
  return std::isfinite(point.first) && std::isfinite(point.second) && point.first > 0 && point.first < 1e9;
}

QPen pen_of(std::size_t curve) {
  constexpr Qt::PenStyle styles[] = {Qt::SolidLine, Qt::DashLine, Qt::DotLine, Qt::DashDotLine};
  return QPen(curve == 0 ? ink::text : curve == 1 ? ink::accent : ink::quiet, 14, styles[curve % 4]);
}

QString size_text(double um, DecimalMark mark) {
  const bool wide = um >= 1000;
  return QString::fromStdString(rounded(wide ? um / 1000 : um, 0, mark)) + (wide ? QStringLiteral(" mm") : QStringLiteral(" µm"));
}

void put_size_grid(Flow& flow, const SizeScale& scale, DecimalMark mark) {
  const QFont small = flow.faces().face(Size::small);
  const double height = line_height(Size::small);
  const bool longer = scale.to / scale.from > 300;
  for (double power = std::pow(10, std::floor(std::log10(scale.from))); power <= scale.to; power *= 10)
    for (const double step : {1.0, 2.0, 5.0}) {
      const double um = step * power;
      if ((step != 1 && longer) || um < scale.from || um > scale.to) continue;
      const double x = scale.x(um);
      flow.put([=](QPainter& painter) {
        painter.setPen(QPen(ink::rule, 4));
        painter.drawLine(QPointF(x, scale.top), QPointF(x, scale.bottom));
      });
      flow.put(Lines(size_text(um, mark), small, 600, height, Lines::Side::centre).all(x - 300, scale.bottom + 20, ink::quiet));
    }
  for (const int pct : {0, 20, 40, 60, 80, 100}) {
    const double y = scale.y(pct);
    flow.put([=](QPainter& painter) {
      painter.setPen(QPen(pct == 0 ? ink::quiet : ink::rule, pct == 0 ? 6 : 4));
      painter.drawLine(QPointF(scale.left, y), QPointF(scale.right, y));
    });
    flow.put(Lines(QStringLiteral("%1 %").arg(pct), small, figures_width - 60, height, Lines::Side::right)
                 .all(scale.left - figures_width, y - height / 2, ink::quiet));
  }
}

void put_sieve_curve(Flow& flow, const SizeScale& scale, const SieveCurve& curve, std::size_t place) {
  QPolygonF line;
  for (const auto& point : curve.points)
    if (drawable(point)) line << QPointF(scale.x(point.first), scale.y(point.second));
  const QPen pen = pen_of(place);
  flow.put([=](QPainter& painter) {
    painter.setPen(pen);
    painter.drawPolyline(line);
    painter.setPen(QPen(pen.color(), 8));
    painter.setBrush(place == 0 ? QBrush(pen.color()) : QBrush(Qt::white));
    for (const QPointF& point : line) painter.drawEllipse(point, dot_radius, dot_radius);
  });
}

void put_name(Flow& flow, const SizeScale& scale, const SieveCurve& curve, std::size_t place, DecimalMark mark) {
  const double height = line_height(Size::small), x = scale.right + 130, y = scale.top + double(place) * 2.4 * height;
  const QPen pen = pen_of(place);
  flow.put([=](QPainter& painter) {
    painter.setPen(pen);
    painter.drawLine(QPointF(x, y + height / 2), QPointF(x + 200, y + height / 2));
  });
  const QFont small = flow.faces().face(Size::small);
  flow.put(Lines(text_of(curve.label), small, names_width - 400, height).all(x + 260, y, ink::text));
  if (!curve.p80_um) return;
  const QString p80 = QStringLiteral("P80 ") + text_of(size_in_words(Opening(*curve.p80_um, unit::micrometre), mark));
  flow.put(Lines(p80, small, names_width - 400, height).all(x + 260, y + height, ink::quiet));
}

}  // namespace

void lay_out_sieve_curves(Flow& flow, const SievePicture& picture, const summary::Speech& say) {
  double least = 1e300, most = 0;
  for (const SieveCurve& curve : picture.curves)
    for (const auto& point : curve.points)
      if (drawable(point)) least = std::min(least, point.first), most = std::max(most, point.first);
  if (!(most > 0)) return;
  const double small = line_height(Size::small);
  flow.need(plot_height + 4.5 * small);
  flow.advance(small);
  const SizeScale scale{
      flow.left() + figures_width,     flow.right() - names_width, flow.y(), flow.y() + plot_height, least / 1.35,
      std::max(most * 1.35, 3 * least)};
  put_size_grid(flow, scale, say);
  for (std::size_t i = 0; i < picture.curves.size(); ++i) {
    put_sieve_curve(flow, scale, picture.curves[i], i);
    if (i < 5) put_name(flow, scale, picture.curves[i], i, say);
  }
  flow.advance(plot_height + 1.3 * small);
  flow.text(
      Lines(text_of(say("page.size_axis")), flow.faces().face(Size::small), scale.right - flow.left(), small, Lines::Side::right),
      flow.left(), ink::quiet);
  flow.advance(0.6 * small);
}

}  // namespace prillbook::paper
