// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/quality/cochran.h"

#include <boost/math/distributions/fisher_f.hpp>

namespace prillbook {

double cochran_critical(std::size_t sets, std::size_t repeats, double alpha) {
  const auto p = static_cast<double>(sets);
  const auto freedom = static_cast<double>(repeats - 1);
  const boost::math::fisher_f law(freedom, (p - 1) * freedom);
  return 1 / (1 + (p - 1) / quantile(complement(law, alpha / p)));
}

std::optional<WidestPair> widest_pair(const std::vector<Pair>& pairs) {
  constexpr std::size_t fewest = 3, repeats = 2;
  constexpr double alpha = 0.05;
  if (pairs.size() < fewest) return std::nullopt;
  WidestPair widest;
  double largest = 0, sum = 0;
  for (std::size_t i = 0; i < pairs.size(); ++i) {
    const double half = half_relative_difference(pairs[i]), variance = half * half;
    sum += variance;
    if (variance > largest) largest = variance, widest.index = i;
  }
  if (!(sum > 0)) return std::nullopt;
  widest.share = largest / sum;
  widest.critical = cochran_critical(pairs.size(), repeats, alpha);
  return widest;
}

}  // namespace prillbook
