// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/quality/pairs.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <numeric>

namespace prillbook {
namespace {

Result<void> check(const std::vector<Pair>& pairs) {
  if (pairs.empty()) return Error{ErrorCode::too_small, "pairs", "at least one pair is needed", {}};
  const auto bad = [](double value) { return !std::isfinite(value) || value < 0; };
  for (std::size_t i = 0; i < pairs.size(); ++i) {
    if (bad(pairs[i].first))
      return Error{ErrorCode::out_of_range, fmt::format("pairs[{}][0]", i), "a value must not be below 0", {}};
    if (bad(pairs[i].second))
      return Error{ErrorCode::out_of_range, fmt::format("pairs[{}][1]", i), "a value must not be below 0", {}};
    if (pairs[i].first == 0 && pairs[i].second == 0)
      return Error{ErrorCode::out_of_range, fmt::format("pairs[{}]", i), "two zeros have no relative difference", {}};
  }
  return {};
}

}  // namespace

double half_relative_difference(const Pair& pair) { return std::abs(pair.first - pair.second) / (pair.first + pair.second); }

double median(std::vector<double> values) {
  const auto middle = values.begin() + static_cast<std::ptrdiff_t>(values.size() / 2);
  std::nth_element(values.begin(), middle, values.end());
  if (values.size() % 2 == 1) return *middle;
  return std::midpoint(*std::max_element(values.begin(), middle), *middle);
}

Result<PairStatistics> pair_statistics(const std::vector<Pair>& pairs) {
  PRILLBOOK_TRY(check(pairs));
  const double n = static_cast<double>(pairs.size());
  std::vector<double> halves;
  double relative_squares = 0, squares = 0;
  for (const Pair& pair : pairs) {
    const double half = half_relative_difference(pair), difference = pair.first - pair.second;
    halves.push_back(half);
    relative_squares += 2 * half * half;
    squares += difference * difference;
  }
  return PairStatistics{pairs.size(), 100 * std::sqrt(relative_squares / n), 100 * median(std::move(halves)),
                        std::sqrt(squares / (2 * n))};
}

}  // namespace prillbook
