// SPDX-License-Identifier: GPL-3.0-or-later
// Blank sheets for the bench: what is asked, in the order in which the forms ask it, so that an evening's typing runs
// down the paper. Labels of columns that a form has are those of the form; tests/ui_printing holds one against the other.
#pragma once

#include <span>
#include <string_view>
#include <vector>

#include "ui/paper/pages.h"

namespace prillbook::paper {

struct BenchColumn {
  const char* label;      // of the form, or of the paper alone
  const char* unit = "";  // what a bare figure means; printed under the label
  double share = 1;       // of the width
  bool of_form = true;    // false: needed on paper only ("Sample", "By")
};

struct BenchSheet {
  std::string_view name;  // "pan-test"
  const char* title;
  const char* hint;                      // one line under the title
  std::span<const BenchColumn> head;     // asked once, above the table; shares of a line of 1
  std::span<const BenchColumn> columns;  // asked for each line
  int rows;
};

// In the order of the rock's way: receiving-list, pan-test, charge, bead-weighings, sieve-analysis, cleaning-log.
std::span<const BenchSheet> bench_sheets();

// The sheets of these names, or all where none is named, one page each, in the order above; every page lies on its long
// side. Errors: not_found, with the name and what there is.
Result<Pages> bench_pages(const std::vector<std::string>& names, PaperSize size);

}  // namespace prillbook::paper
