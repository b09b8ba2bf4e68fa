// SPDX-License-Identifier: GPL-3.0-or-later
// A page that is written on by hand: words, and lines to write between. Lengths in tenths of a point.
#pragma once

#include "ui/paper/flow.h"

namespace prillbook::paper {

class RuledSheet {
 public:
  RuledSheet() : faces_(Paper{}) {}

  // On one line; smaller, then shortened, where it is too long for `where`.
  void put_text(const QString& text, Size size, bool bold, const QRectF& where, const QColor& colour,
                Qt::Alignment side = Qt::AlignLeft);
  // Words over as many lines as the width asks for; gives their height.
  double put_label(const QString& text, double x, double y, double width);
  void line(double x1, double y1, double x2, double y2, const QColor& colour, double thickness);
  void put(Stroke stroke) { strokes_.push_back(std::move(stroke)); }

  const Faces& faces() const { return faces_; }
  Sheet take() { return std::move(strokes_); }

 private:
  Faces faces_;
  Sheet strokes_;
};

}  // namespace prillbook::paper
