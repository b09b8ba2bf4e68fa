// SPDX-License-Identifier: GPL-3.0-or-later
// A sheet of labels: how its grid lies on the page. Read from JSON; docs/labels.md describes the keys.
#pragma once

#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "core/base/result.h"

namespace prillbook::labels {

enum class SheetPaper { a4, letter };

// All lengths in millimetres, from the left and upper edge of the page.
struct Layout {
  std::string name;   // by which it is chosen, "a4-3x8"
  std::string title;  // "3 × 8 on A4, 70 × 37 mm"
  SheetPaper paper = SheetPaper::a4;
  int rows = 1, columns = 1;
  double width = 0, height = 0;            // of one label
  double left = 0, top = 0;                // of the first label
  double column_pitch = 0, row_pitch = 0;  // from one label to the next

  int count() const { return rows * columns; }
  friend bool operator==(const Layout&, const Layout&) = default;
};

struct Rectangle {
  double left = 0, top = 0, width = 0, height = 0;  // mm
};

struct Page {
  double width = 0, height = 0;  // mm
};
Page page_of(SheetPaper paper);

// Errors: malformed_json, unknown_key, missing_key, wrong_type, and for a grid that can not be: out_of_range (no rows, a
// label too small for a code), conflict (labels that overlap), inconsistent (a grid that leaves the page).
Result<Layout> parse_layout(std::string_view json);

// Those that come with the program, A4 first. A name of the program's own that does not read is a fault of the build.
const std::vector<Layout>& layouts();
// Errors: not_found, with the name and all that there are.
Result<Layout> layout_by_name(std::string_view name);

// Where a label stands: `place` from 1, along the rows. Domain: 1 to layout.count().
Rectangle place_on(const Layout& layout, int place);

// A part-used sheet: the first label goes to the place `start`, later sheets are whole.
struct Spot {
  int sheet = 0;  // from 0
  int place = 1;  // from 1
};
// Errors: out_of_range for a place that the sheet does not have (the arguments: the place, the last one).
Result<std::vector<Spot>> spots(const Layout& layout, std::size_t labels, int start);

}  // namespace prillbook::labels
