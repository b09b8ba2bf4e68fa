// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/labels/layout.h"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <cmath>

#include "core/json/json_input.h"
#include "core/labels/layout_texts.h"

namespace prillbook::labels {
namespace {

// Geometry given to a tenth of a millimetre may overlap or leave the page by a rounding.
constexpr double rounding = 0.1;
// A code of 25 by 25 modules with its margin of 4 on each side, modules of 0.3 mm: what a printer of 300 dots an inch can hold.
constexpr double least_height = 10, least_width = 25;
constexpr double most_in_a_line = 40;

Error grid_fault(ErrorCode code, std::string_view key, std::string reason) {
  return {code, std::string(key), std::move(reason), {}};
}

Result<int> count_of(JsonInput& input, std::string_view key) {
  PRILLBOOK_ASSIGN(const double number, input.number(key, Domain{1, most_in_a_line}));
  if (number != std::floor(number)) return input.error(ErrorCode::out_of_range, key, fmt::format("{} is a whole number", key));
  return static_cast<int>(number);
}

Result<void> check_line(double first, double size, double pitch, int count, double page, std::string_view key) {
  if (count > 1 && pitch < size - rounding)
    return grid_fault(ErrorCode::conflict, key, fmt::format("{}: the labels overlap", key));
  if (first + pitch * (count - 1) + size > page + rounding)
    return grid_fault(ErrorCode::inconsistent, key, fmt::format("{}: the grid leaves the page", key));
  return {};
}

Result<void> check_grid(const Layout& layout) {
  if (layout.width < least_width)
    return grid_fault(ErrorCode::out_of_range, "width_mm", fmt::format("a label is at least {} mm wide", least_width));
  if (layout.height < least_height)
    return grid_fault(ErrorCode::out_of_range, "height_mm", fmt::format("a label is at least {} mm high", least_height));
  const Page page = page_of(layout.paper);
  PRILLBOOK_TRY(check_line(layout.left, layout.width, layout.column_pitch, layout.columns, page.width, "column_pitch_mm"));
  return check_line(layout.top, layout.height, layout.row_pitch, layout.rows, page.height, "row_pitch_mm");
}

}  // namespace

Page page_of(SheetPaper paper) { return paper == SheetPaper::a4 ? Page{210, 297} : Page{215.9, 279.4}; }

Result<Layout> parse_layout(std::string_view json) {
  PRILLBOOK_ASSIGN(const nlohmann::json value, parse_json(json));
  PRILLBOOK_ASSIGN(JsonInput input, JsonInput::object(value));
  Layout layout;
  PRILLBOOK_ASSIGN(layout.name, input.text("name"));
  PRILLBOOK_ASSIGN(const std::string paper, input.text("paper"));
  if (paper != "a4" && paper != "letter")
    return input.error(ErrorCode::out_of_range, "paper", fmt::format("paper: '{}' is neither a4 nor letter", paper));
  layout.paper = paper == "a4" ? SheetPaper::a4 : SheetPaper::letter;
  PRILLBOOK_ASSIGN(layout.columns, count_of(input, "columns"));
  PRILLBOOK_ASSIGN(layout.rows, count_of(input, "rows"));
  PRILLBOOK_ASSIGN(layout.width, input.number("width_mm", positive));
  PRILLBOOK_ASSIGN(layout.height, input.number("height_mm", positive));
  PRILLBOOK_ASSIGN(layout.left, input.number("left_mm", not_negative));
  PRILLBOOK_ASSIGN(layout.top, input.number("top_mm", not_negative));
  PRILLBOOK_ASSIGN(layout.column_pitch, input.number_or("column_pitch_mm", layout.width, positive));
  PRILLBOOK_ASSIGN(layout.row_pitch, input.number_or("row_pitch_mm", layout.height, positive));
  PRILLBOOK_TRY(input.finish());
  PRILLBOOK_TRY(check_grid(layout));
  layout.title = fmt::format("{} × {} on {}, {:g} × {:g} mm", layout.columns, layout.rows,
                             layout.paper == SheetPaper::a4 ? "A4" : "Letter", layout.width, layout.height);
  return layout;
}

const std::vector<Layout>& layouts() {
  static const std::vector<Layout> all = [] {
    std::vector<Layout> list;
    for (const std::string_view text : layout_texts)
      if (auto layout = parse_layout(text)) list.push_back(*std::move(layout));
    return list;
  }();
  return all;
}

Result<Layout> layout_by_name(std::string_view name) {
  std::vector<std::string> names;
  for (const Layout& layout : layouts()) {
    if (layout.name == name) return layout;
    names.push_back(layout.name);
  }
  return Error{ErrorCode::not_found,
               "--layout",
               fmt::format("there is no layout '{}'; there are {}", name, fmt::join(names, ", ")),
               {std::string(name)}};
}

Rectangle place_on(const Layout& layout, int place) {
  const int row = (place - 1) / layout.columns, column = (place - 1) % layout.columns;
  return {layout.left + column * layout.column_pitch, layout.top + row * layout.row_pitch, layout.width, layout.height};
}

Result<std::vector<Spot>> spots(const Layout& layout, std::size_t labels, int start) {
  if (start < 1 || start > layout.count())
    return Error{ErrorCode::out_of_range,
                 "--start",
                 fmt::format("a sheet of this layout has the places 1 to {}", layout.count()),
                 {std::to_string(start), std::to_string(layout.count())}};
  std::vector<Spot> list;
  list.reserve(labels);
  for (std::size_t i = 0; i < labels; ++i) {
    const auto at = static_cast<std::size_t>(start - 1) + i, per_sheet = static_cast<std::size_t>(layout.count());
    list.push_back({static_cast<int>(at / per_sheet), static_cast<int>(at % per_sheet) + 1});
  }
  return list;
}

}  // namespace prillbook::labels
