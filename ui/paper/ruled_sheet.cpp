// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/paper/ruled_sheet.h"

#include <QtGui/QFontMetricsF>

namespace prillbook::paper {

void RuledSheet::put_text(const QString& text, Size size, bool bold, const QRectF& where, const QColor& colour,
                          Qt::Alignment side) {
  constexpr int smallest = 50, step = 3;
  QFont font = faces_.face(size, bold);
  while (font.pixelSize() > smallest && QFontMetricsF(font).horizontalAdvance(text) > where.width())
    font.setPixelSize(font.pixelSize() - step);
  const QString fitted = QFontMetricsF(font).elidedText(text, Qt::ElideRight, where.width());
  strokes_.push_back([=](QPainter& painter) {
    painter.setFont(font);
    painter.setPen(colour);
    painter.drawText(where, int(side) | Qt::AlignTop | Qt::TextSingleLine, fitted);
  });
}

double RuledSheet::put_label(const QString& text, double x, double y, double width) {
  const Lines lines(text, faces_.face(Size::small, true), width, line_height(Size::small));
  strokes_.push_back(lines.all(x, y, ink::text));
  return lines.height();
}

void RuledSheet::line(double x1, double y1, double x2, double y2, const QColor& colour, double thickness) {
  strokes_.push_back([=](QPainter& painter) {
    painter.setPen(QPen(colour, thickness));
    painter.drawLine(QPointF(x1, y1), QPointF(x2, y2));
  });
}

}  // namespace prillbook::paper
