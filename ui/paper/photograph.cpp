// SPDX-License-Identifier: GPL-3.0-or-later
#include <QtGui/QImage>

#include "ui/paper/blocks.h"

namespace prillbook::paper {

void lay_out_photograph(Flow& flow, const summary::Photograph& photograph, const summary::Speech& say) {
  constexpr double most_height = 2400, gap = 40, under = 120;
  const double line = line_height(Size::small);
  const QImage image =
      QImage::fromData(reinterpret_cast<const uchar*>(photograph.bytes.data()), static_cast<int>(photograph.bytes.size()));
  const QString said = text_of(photograph.caption);
  const Lines words(image.isNull() ? text_of(say("page.no_photograph", {{"caption", photograph.caption}})) : said,
                    flow.faces().face(Size::small), flow.width(), line);
  if (!image.isNull()) {
    const QSizeF size = QSizeF(image.size()).scaled(flow.width() / 2, most_height, Qt::KeepAspectRatio);
    flow.need(size.height() + gap + words.height() + under);
    const QRectF area(QPointF(flow.left(), flow.y()), size);
    flow.put([area, image](QPainter& painter) {
      painter.save();
      painter.setRenderHint(QPainter::SmoothPixmapTransform);
      painter.drawImage(area, image);
      painter.restore();
    });
    flow.advance(size.height() + gap);
  }
  flow.text(words, flow.left(), ink::quiet);
  flow.advance(under);
}

}  // namespace prillbook::paper
