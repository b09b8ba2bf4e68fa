// SPDX-License-Identifier: GPL-3.0-or-later
// How figures and times are written on the screen. Nothing is computed and nothing is rounded here: numbers come as the
// text that core has rounded (with a point), or as they were typed.
#pragma once

#include <QtCore/QString>
#include <optional>
#include <string_view>

#include "core/base/clock.h"
#include "core/readings/reading.h"

class QPainter;
class QPointF;

namespace prillbook::ui {

// A number and its unit, kept apart so that the unit can be drawn lighter. An empty number is a figure not measured.
struct Figure {
  QString number;
  QString unit;

  bool measured() const { return !number.isEmpty(); }
  friend bool operator==(const Figure&, const Figure&) = default;
};

// "0.022" and "g": as typed, the mark untouched, the unit that was understood; "<0.01" and "mg"; "none" without unit.
Figure as_typed(const std::optional<readings::Reading>& reading);

// A number that core has rounded: "16.5" with a point, written with the lab's mark.
Figure figure(std::string_view rounded, std::string_view unit, DecimalMark mark);
// "16.5 ± 0.9" and "g/t", from two rounded numbers.
Figure interval(std::string_view rounded, std::string_view rounded_half_width, std::string_view unit, DecimalMark mark);

// In one string, with a narrow no-break space before the unit; empty where nothing was measured.
QString text(const Figure& figure);

// A name for a line that has room for so many letters; a longer one ends in an ellipsis.
QString in_short(const QString& name, int letters = 40);

// "4 May 2026", "14:02", "4 May 2026, 14:02": the instant's own local time, month names in the language of the window.
QString date_text(const Instant& when);
QString time_text(const Instant& when);
QString date_time_text(const Instant& when);

// Draws the figure with its decimal mark at `at.x()` and its base line at `at.y()`; a figure not measured is drawn as an
// empty ruled line of `empty_width`. Figures drawn at one x stand in a column.
void draw_on_mark(QPainter& painter, const QPointF& at, const Figure& figure, double empty_width);

}  // namespace prillbook::ui
