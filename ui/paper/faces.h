// SPDX-License-Identifier: GPL-3.0-or-later
// Ink and type on paper. All lengths of this folder are in tenths of a point.
#pragma once

#include <QtGui/QColor>
#include <QtGui/QFont>

#include "ui/paper/paper.h"

namespace prillbook::paper {

enum class Size { small, body, large };  // 8.8, 10.6 and 15 pt

struct Faces {
  QString family;

  explicit Faces(const Paper& paper);
  QFont face(Size size, bool bold = false) const;
};

double line_height(Size size);

namespace ink {
inline const QColor text(0x26221C), quiet(0x5C5447), rule(0xCFC4B1), accent(0x17695F), gold(0xC9962F), silver(0x6C7479),
    gap(0xEFE6D2);
}

}  // namespace prillbook::paper
