// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/kit/pages_view.h"

#include <QtGui/QPaintEvent>
#include <QtGui/QPainter>
#include <algorithm>

#include "ui/kit/theme.h"

namespace prillbook::ui {
namespace {

constexpr int between = 2 * rhythm, widest = 96 * rhythm;

}  // namespace

PagesView::PagesView(QWidget* parent) : QWidget(parent) {
  setSizePolicy(QSizePolicy::Expanding, QSizePolicy::Fixed);
  setAccessibleName(tr("Pages"));
}

void PagesView::set_pages(std::vector<QImage> pages) {
  pages_ = std::move(pages);
  setAccessibleDescription(tr("Pages: %1").arg(count()));
  fit();
  update();
}

int PagesView::page_width() const { return std::min(width(), widest); }

int PagesView::page_height(const QImage& page) const {
  return page.width() > 0 ? int(qint64(page.height()) * page_width() / page.width()) : 0;
}

void PagesView::fit() {
  int height = 0;
  for (const QImage& page : pages_) height += page_height(page) + between;
  setFixedHeight(height);
}

void PagesView::resizeEvent(QResizeEvent*) { fit(); }

void PagesView::paintEvent(QPaintEvent* event) {
  QPainter painter(this);
  painter.setRenderHint(QPainter::SmoothPixmapTransform);
  int y = 0;
  for (const QImage& page : pages_) {
    const QRect area(0, y, page_width(), page_height(page));
    if (area.intersects(event->rect())) {
      painter.drawImage(area, page);
      painter.setPen(QPen(inks().rule, 1));
      painter.drawRect(area.adjusted(0, 0, -1, -1));
    }
    y += area.height() + between;
  }
}

}  // namespace prillbook::ui
