// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/quality/precision.h"

#include <algorithm>
#include <cmath>
#include <numeric>
#include <span>

namespace prillbook {
namespace {

constexpr double sd_of_median = 1.04836;

double mean_of(const Pair& pair) { return std::midpoint(pair.first, pair.second); }

PrecisionGroup group_of(std::span<const Pair> pairs) {
  std::vector<double> differences;
  double sum = 0;
  for (const Pair& pair : pairs) {
    differences.push_back(std::abs(pair.first - pair.second));
    sum += mean_of(pair);
  }
  const double middle = median(std::move(differences));
  return {pairs.size(), sum / double(pairs.size()), middle, sd_of_median * middle};
}

// Least squares through the groups.
void fit_line(Precision& precision) {
  const auto n = double(precision.groups.size());
  double mean_x = 0, mean_y = 0, xx = 0, xy = 0;
  for (const PrecisionGroup& group : precision.groups) mean_x += group.mean / n, mean_y += group.sd / n;
  for (const PrecisionGroup& group : precision.groups) {
    xx += (group.mean - mean_x) * (group.mean - mean_x);
    xy += (group.mean - mean_x) * (group.sd - mean_y);
  }
  if (precision.groups.size() < 2 || !(xx > 0)) return;
  precision.rise = xy / xx;
  precision.sd_at_zero = mean_y - *precision.rise * mean_x;
}

}  // namespace

Result<Precision> precision_by_grade(std::vector<Pair> pairs) {
  PRILLBOOK_TRY(pair_statistics(pairs));
  std::stable_sort(pairs.begin(), pairs.end(), [](const Pair& a, const Pair& b) { return mean_of(a) < mean_of(b); });
  const std::size_t groups = std::max<std::size_t>(1, pairs.size() / precision_group);
  Precision precision;
  std::span<const Pair> left(pairs);
  for (std::size_t i = 0; i < groups; ++i) {
    const std::size_t size = i + 1 == groups ? left.size() : precision_group;
    precision.groups.push_back(group_of(left.first(size)));
    left = left.subspan(size);
  }
  fit_line(precision);
  return precision;
}

}  // namespace prillbook
