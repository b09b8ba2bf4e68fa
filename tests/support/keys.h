// SPDX-License-Identifier: GPL-3.0-or-later
// Keys, wheel and focus for widgets, as if by hand.
#pragma once

#include <QtCore/QCoreApplication>
#include <QtGui/QKeyEvent>
#include <QtGui/QWheelEvent>
#include <QtWidgets/QWidget>

namespace prillbook::testing_support {

inline void press(QWidget* widget, int key, Qt::KeyboardModifiers modifiers = Qt::NoModifier, const QString& text = {}) {
  QKeyEvent down(QEvent::KeyPress, key, modifiers, text);
  QCoreApplication::sendEvent(widget, &down);
  QKeyEvent up(QEvent::KeyRelease, key, modifiers, text);
  QCoreApplication::sendEvent(widget, &up);
}

inline void write(QWidget* widget, const QString& text) {
  for (const QChar c : text) press(widget, c.toUpper().unicode(), Qt::NoModifier, QString(c));
}

inline void leave(QWidget* widget, Qt::FocusReason reason = Qt::TabFocusReason) {
  QFocusEvent out(QEvent::FocusOut, reason);
  QCoreApplication::sendEvent(widget, &out);
}

// True where the widget took the turn of the wheel for itself.
inline bool turn_wheel(QWidget* widget) {
  QWheelEvent turn(QPointF(5, 5), QPointF(5, 5), QPoint(), QPoint(0, 120), Qt::NoButton, Qt::NoModifier, Qt::NoScrollPhase,
                   false);
  turn.setAccepted(false);
  QCoreApplication::sendEvent(widget, &turn);
  return turn.isAccepted();
}

}  // namespace prillbook::testing_support
