// SPDX-License-Identifier: GPL-3.0-or-later
// Where a figure of a summary comes from: the formula with its source, and the readings that went into it.
#pragma once

#include <string>
#include <vector>

#include "core/summary/summary.h"

namespace prillbook::summary {

struct Origin {
  std::string what;    // "Gold, 26-0003/2"
  std::string figure;  // as the page has it
  std::string formula;
  std::vector<std::string> constants;  // "1 troy oz per short ton = 240/7 g/t"
  std::string source;
  std::vector<ReadingLine> readings;  // with who and when
  std::vector<std::string> from;      // `what` of other figures that it rests on
};

// One for every figure of the result lines: tests, mean, comparison, sieve analyses, in the order of the lines.
std::vector<Origin> origins_of(const SummarySample& sample, const Speech& say);

// "portion (fire): 30.00 g · 2026-05-05 14:10 · HM · fine balance, step 0.01 g"; with why it was left out, where it was.
std::string reading_in_words(const ReadingLine& line);

}  // namespace prillbook::summary
