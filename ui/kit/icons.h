// SPDX-License-Identifier: GPL-3.0-or-later
// Our own line icons, drawn in the ink of the place where they stand. An icon never stands without a word at first sight.
#pragma once

#include <QtGui/QIcon>
#include <QtGui/QPixmap>

namespace prillbook::ui {

enum class Icon {
  receiving,
  preparation,
  pan,
  furnace,
  sieves,
  weigh_room,
  compare,
  summary,
  quality,
  findings,
  setup,
  find,
  undo,
  redo,
  guide,
  fold,
  person,
  notebook,
  written,
};

// Follows `ink` only at the time of the call: ask again when the theme changes.
QPixmap pixmap(Icon icon, const QColor& ink, int size, qreal pixel_ratio = 1);
// In the accent; ink under the pointer, faint where it cannot be pressed.
QIcon line_icon(Icon icon);
// Path of the drawing in the resources.
QString drawing(Icon icon);

}  // namespace prillbook::ui
