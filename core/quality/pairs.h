// SPDX-License-Identifier: GPL-3.0-or-later
// Scatter of duplicate pairs.
#pragma once

#include <vector>

#include "core/base/result.h"

namespace prillbook {

struct Pair {
  double first = 0, second = 0;  // >= 0, not both 0; one unit throughout
};

// |a - b|/(a + b), 0 to 1: half the absolute relative difference. Domain: as Pair.
double half_relative_difference(const Pair& pair);

struct PairStatistics {
  std::size_t n = 0;
  double cv_average_pct = 0;       // root mean square of √2 |a - b|/(a + b); at most 141.4 %
  double half_ard_median_pct = 0;  // median of half the absolute relative difference
  double repeat_sd = 0;            // √(Σd²/2n), in the unit of the values
};

// Source: Stanley and Lawie, Explor. Min. Geol. 16 (2007) 267 for the root mean square (abstract seen).
// Errors: too_small (no pair; field pairs), out_of_range (a value below 0, field pairs[i][j]; both 0, field pairs[i]).
Result<PairStatistics> pair_statistics(const std::vector<Pair>& pairs);

// Median of the values; mean of the middle two for an even number. Domain: not empty.
double median(std::vector<double> values);

}  // namespace prillbook
