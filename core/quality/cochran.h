// SPDX-License-Identifier: GPL-3.0-or-later
// Is one spread among several too large to belong with them?
#pragma once

#include <cstddef>
#include <optional>
#include <vector>

#include "core/quality/pairs.h"

namespace prillbook {

// Critical share of the largest variance in the sum of `sets` variances, each of `repeats` values; one-sided.
// 1/(1 + (p - 1)/F), F the upper alpha/p quantile with n - 1 and (p - 1)(n - 1) degrees of freedom.
// Source: Cochran's test of ISO 5725-2 (from memory). Domain: sets >= 2, repeats >= 2, 0 < alpha < 1.
double cochran_critical(std::size_t sets, std::size_t repeats, double alpha);

// The pair that scatters most, and whether it belongs with the others.
struct WidestPair {
  std::size_t index = 0;
  double share = 0;     // of its relative variance in the sum of all, 0 to 1
  double critical = 0;  // at 5 %

  bool stands_out() const { return share > critical; }
};

// By relative differences, since the scatter grows with the grade. Absent below three pairs, or where none differs at all.
// Domain of the pairs: as Pair.
std::optional<WidestPair> widest_pair(const std::vector<Pair>& pairs);

}  // namespace prillbook
