// SPDX-License-Identifier: GPL-3.0-or-later
// The columns that the list and the spreadsheet of a summary share, and how one line fills them.
#pragma once

#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "core/summary/report.h"

namespace prillbook::exchange {

struct SummaryColumn {
  std::string_view name;   // of the list: "gold_g_t_lo"
  std::string_view title;  // of the spreadsheet: "Gold, g/t, low end (95 %)"
  bool number = false;
};

std::span<const SummaryColumn> summary_columns();

// One text a column; numbers in plain digits with a point, empty where nothing was measured. A limit ("< 0.05") fills
// the high end alone.
std::vector<std::string> summary_cells(const summary::ResultLine& line);

}  // namespace prillbook::exchange
