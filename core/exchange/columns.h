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
  std::string_view name;  // of the list: "gold_g_t_lo"
  bool number = false;
};

std::span<const SummaryColumn> summary_columns();

// As a person reads it, in the language of the pages: "Gold, g/t, low end (95 %)".
std::string title_of(const SummaryColumn& column, const summary::Speech& say);

// One text a column; numbers in plain digits with a point, empty where nothing was measured. A limit ("< 0.05") fills
// the high end alone. Names of states, kinds and verdicts are those of the contract in English, words in another language.
std::vector<std::string> summary_cells(const summary::ResultLine& line, const summary::Speech& say);

}  // namespace prillbook::exchange
