// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/weigh_room/key_hint.h"

#include <QtGui/QPainter>

#include "ui/kit/theme.h"

namespace prillbook::ui {

KeyHint::KeyHint(const QString& key, const QString& words, QWidget* parent) : QAbstractButton(parent), key_(key), words_(words) {
  setFocusPolicy(Qt::NoFocus);
  setText(words);
  setAccessibleName(QStringLiteral("%1, %2").arg(words, key));
  setCursor(Qt::PointingHandCursor);
  setSizePolicy(QSizePolicy::Fixed, QSizePolicy::Fixed);
}

int KeyHint::key_width() const { return QFontMetrics(face(TextSize::small, Weight::bold)).horizontalAdvance(key_) + 14; }

QSize KeyHint::sizeHint() const {
  const QFontMetrics words(face(TextSize::small));
  return {key_width() + rhythm + words.horizontalAdvance(words_) + 2, 3 * rhythm + 4};
}

void KeyHint::paintEvent(QPaintEvent*) {
  const Inks& ink = inks();
  QPainter painter(this);
  painter.setRenderHint(QPainter::Antialiasing);
  const QRectF cap(0.75, 2.75, key_width() - 1.5, height() - 5.5);
  painter.setPen(QPen(isEnabled() ? ink.line : ink.rule, 1));
  painter.setBrush(isDown() ? ink.rule : underMouse() && isEnabled() ? ink.shaded : ink.ground);
  painter.drawRoundedRect(cap, 3, 3);
  painter.setFont(face(TextSize::small, Weight::bold));
  painter.setPen(isEnabled() ? ink.accent : ink.quiet);
  painter.drawText(cap, Qt::AlignCenter, key_);
  painter.setFont(face(TextSize::small));
  painter.setPen(isEnabled() ? ink.ink : ink.quiet);
  painter.drawText(QRectF(key_width() + rhythm, 0, width(), height()), Qt::AlignVCenter | Qt::AlignLeft, words_);
}

}  // namespace prillbook::ui
