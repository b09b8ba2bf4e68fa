// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/printing/sheet_picture.h"

#include <QtGui/QKeyEvent>
#include <QtGui/QPainter>
#include <algorithm>

#include "ui/kit/theme.h"

namespace prillbook::ui {
namespace {

constexpr int picture_height = 26 * rhythm;

}  // namespace

SheetPicture::SheetPicture(QWidget* parent) : QWidget(parent) {
  setFocusPolicy(Qt::StrongFocus);
  setSizePolicy(QSizePolicy::Fixed, QSizePolicy::Fixed);
  setCursor(Qt::PointingHandCursor);
  setAccessibleName(tr("Where the first label goes"));
}

double SheetPicture::scale() const { return (picture_height - 2) / labels::page_of(layout_.paper).height; }

QSize SheetPicture::sizeHint() const { return {int(labels::page_of(layout_.paper).width * scale()) + 2, picture_height}; }

QRectF SheetPicture::place_area(int place) const {
  const labels::Rectangle mm = labels::place_on(layout_, place);
  const double s = scale();
  return {1 + mm.left * s, 1 + mm.top * s, mm.width * s, mm.height * s};
}

void SheetPicture::set_layout(const labels::Layout& layout) {
  layout_ = layout;
  start_ = std::clamp(start_, 1, layout.count());
  updateGeometry();
  tell();
}

void SheetPicture::set_labels(int count) {
  labels_ = count;
  update();
}

void SheetPicture::set_start(int place) {
  const int kept = std::clamp(place, 1, layout_.count());
  if (kept == start_) return;
  start_ = kept;
  tell();
  emit start_changed(start_);
}

void SheetPicture::tell() {
  setAccessibleDescription(tr("place %1 of %2").arg(start_).arg(layout_.count()));
  update();
}

void SheetPicture::paintEvent(QPaintEvent*) {
  QPainter painter(this);
  const Inks& ink = inks();
  const QRectF page(0.5, 0.5, sizeHint().width() - 1, height() - 1);
  painter.fillRect(page, ink.ground);
  for (int place = 1; place <= layout_.count(); ++place) {
    const QRectF area = place_area(place).adjusted(0.5, 0.5, -0.5, -0.5);
    const bool taken = place >= start_ && place < start_ + labels_;
    if (place < start_) painter.fillRect(area, QBrush(ink.rule, Qt::BDiagPattern));
    if (taken) painter.fillRect(area, ink.gap);
    painter.setPen(QPen(ink.rule, 1));
    painter.drawRect(area);
    if (place == start_) {
      painter.setPen(QPen(ink.accent, 2));
      painter.drawRect(area.adjusted(1, 1, -1, -1));
    }
  }
  painter.setPen(QPen(hasFocus() ? ink.accent : ink.line, hasFocus() ? 2 : 1));
  painter.drawRect(page);
}

void SheetPicture::keyPressEvent(QKeyEvent* event) {
  switch (event->key()) {
    case Qt::Key_Left: return set_start(start_ - 1);
    case Qt::Key_Right: return set_start(start_ + 1);
    case Qt::Key_Up: return set_start(start_ > layout_.columns ? start_ - layout_.columns : start_);
    case Qt::Key_Down: return set_start(start_ + layout_.columns <= layout_.count() ? start_ + layout_.columns : start_);
    case Qt::Key_Home: return set_start(1);
    case Qt::Key_End: return set_start(layout_.count());
    case Qt::Key_Return:
    case Qt::Key_Enter: focusNextChild(); return;
    default: QWidget::keyPressEvent(event);
  }
}

void SheetPicture::mousePressEvent(QMouseEvent* event) {
  for (int place = 1; place <= layout_.count(); ++place)
    if (place_area(place).contains(event->position())) return set_start(place);
}

void SheetPicture::focusInEvent(QFocusEvent* event) {
  QWidget::focusInEvent(event);
  update();
}

void SheetPicture::focusOutEvent(QFocusEvent* event) {
  QWidget::focusOutEvent(event);
  update();
}

}  // namespace prillbook::ui
