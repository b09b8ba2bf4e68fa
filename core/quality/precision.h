// SPDX-License-Identifier: GPL-3.0-or-later
// How the scatter of duplicates grows with grade.
#pragma once

#include <optional>
#include <vector>

#include "core/quality/pairs.h"

namespace prillbook {

// Pairs of about one grade.
struct PrecisionGroup {
  std::size_t pairs = 0;
  double mean = 0;               // of the means of its pairs
  double median_difference = 0;  // of |a - b|
  double sd = 0;                 // of one result: 1.04836 × that median
};

struct Precision {
  std::vector<PrecisionGroup> groups;      // by grade
  std::optional<double> sd_at_zero, rise;  // sd = sd_at_zero + rise × grade; absent with one group, or all of one grade
};

inline constexpr std::size_t precision_group = 11;

// Pairs in order of their means, in groups of eleven (the rest joins the last group; fewer are one group), and a straight
// line through the groups. Source: Thompson and Howarth, The Analyst 101 (1976) 690 (from memory); 1.04836 = 1/0.95387,
// the median of |a - b| under the normal law. Errors: as pair_statistics().
Result<Precision> precision_by_grade(std::vector<Pair> pairs);

}  // namespace prillbook
