// SPDX-License-Identifier: GPL-3.0-or-later
// Intervals on one scale: a dot with its whisker, the sampling error thinner and longer round it.
#include <QtGui/QFontMetricsF>
#include <algorithm>
#include <cmath>

#include "core/assay/rounding.h"
#include "ui/paper/blocks.h"

namespace prillbook::paper {
namespace {

using summary::IntervalPicture;
using summary::Metal;
using summary::PictureRow;

constexpr double row_height = 210, label_width = 900, words_width = 1330, dot = 30, cap = 48;

// A step of 1, 2 or 5 times a power of ten that cuts `reach` into at most six.
double tick_step(double reach) {
  const double rough = reach / 6, power = std::pow(10.0, std::floor(std::log10(rough)));
  for (const double step : {1.0, 2.0, 5.0})
    if (step * power >= rough) return step * power;
  return 10 * power;
}

double reach_of(const IntervalPicture& picture) {
  double reach = 0;
  for (const PictureRow& row : picture.rows)
    for (const auto& end : {row.figure.value, row.figure.hi, row.sampling_hi}) reach = std::max(reach, end.value_or(0));
  return reach;
}

struct Scale {
  double left, right, reach;
  double at(double value) const { return left + (right - left) * std::clamp(value / reach, 0.0, 1.0); }
};

void draw_whisker(QPainter& painter, const Scale& scale, double lo, double hi, double y, const QPen& pen, double end) {
  painter.setPen(pen);
  painter.drawLine(QPointF(scale.at(lo), y), QPointF(scale.at(hi), y));
  for (const double x : {scale.at(lo), scale.at(hi)}) painter.drawLine(QPointF(x, y - end), QPointF(x, y + end));
}

void draw_row(QPainter& painter, const Scale& scale, const PictureRow& row, double y) {
  const bool gold = row.metal == Metal::gold;
  const QColor colour = gold ? ink::text : ink::silver;
  if (row.sampling_lo && row.sampling_hi)
    draw_whisker(painter, scale, *row.sampling_lo, *row.sampling_hi, y, QPen(colour, 5), cap / 2);
  if (row.figure.hi) draw_whisker(painter, scale, row.figure.lo.value_or(0), *row.figure.hi, y, QPen(colour, 14), cap);
  if (!row.figure.value) return;
  painter.setPen(QPen(gold ? ink::text : ink::silver, 10));
  painter.setBrush(gold ? QBrush(ink::gold) : QBrush(Qt::white));
  painter.drawEllipse(QPointF(scale.at(*row.figure.value), y), dot, dot);
}

void put_axis(Flow& flow, const Scale& scale, double top, DecimalMark mark) {
  const double y = flow.y(), step = tick_step(scale.reach);
  const QFont small = flow.faces().face(Size::small);
  flow.put([=](QPainter& painter) {
    painter.setPen(QPen(ink::quiet, 6));
    painter.drawLine(QPointF(scale.left, y), QPointF(scale.right, y));
  });
  const int decimals = std::max(0, -int(std::floor(std::log10(step) + 1e-9)));
  for (int i = 0; i * step <= scale.reach * (1 + 1e-9); ++i) {
    const double x = scale.at(i * step);
    flow.put([=](QPainter& painter) {
      painter.setPen(QPen(ink::rule, 4));
      painter.drawLine(QPointF(x, top), QPointF(x, y));
    });
    flow.put(Lines(QString::fromStdString(rounded(i * step, decimals, mark)), small, 600, line_height(Size::small),
                   Lines::Side::centre)
                 .all(x - 300, y + 20, ink::quiet));
  }
  flow.put(Lines(QStringLiteral("g/t"), small, 600, line_height(Size::small)).all(scale.right + 150, y + 20, ink::quiet));
}

void put_gap(Flow& flow, const IntervalPicture& picture, const Scale& scale, double top, double bottom) {
  if (!picture.gap_from || !picture.gap_to) return;
  const QRectF shade(QPointF(scale.at(*picture.gap_from), top), QPointF(scale.at(*picture.gap_to), bottom));
  flow.put([=](QPainter& painter) { painter.fillRect(shade, ink::gap); });
  const QFont small = flow.faces().face(Size::small);
  flow.put(Lines(text_of(picture.gap_label), small, 1200, line_height(Size::small), Lines::Side::centre)
               .all(shade.center().x() - 600, top - line_height(Size::small), ink::quiet));
}

}  // namespace

void lay_out_picture(Flow& flow, const IntervalPicture& picture, DecimalMark mark) {
  const double reach = reach_of(picture);
  if (picture.rows.empty() || !(reach > 0) || !std::isfinite(reach)) return;
  const double small = line_height(Size::small), rows = row_height * double(picture.rows.size());
  flow.need(1.4 * small + rows + 2 * small);
  flow.advance(1.4 * small);
  const double step = tick_step(reach);
  const Scale scale{flow.left() + label_width, flow.right() - words_width, std::ceil(reach / step - 1e-9) * step};
  const double top = flow.y();
  const auto of_gold =
      std::count_if(picture.rows.begin(), picture.rows.end(), [](const PictureRow& row) { return row.metal == Metal::gold; });
  put_gap(flow, picture, scale, top, top + row_height * double(of_gold));
  flow.advance(rows);
  put_axis(flow, scale, top, mark);
  double y = top + row_height / 2;
  for (const PictureRow& row : picture.rows) {
    const QFont face = flow.faces().face(Size::small);
    flow.put(Lines(text_of(row.label), face, label_width - 100, small).all(flow.left(), y - small / 2, ink::text));
    flow.put([=](QPainter& painter) { draw_row(painter, scale, row, y); });
    flow.put(
        Lines(text_of(with_unit(row.figure)), face, words_width - 130, small).all(scale.right + 130, y - small / 2, ink::text));
    y += row_height;
  }
  flow.advance(1.5 * small);
}

}  // namespace prillbook::paper
