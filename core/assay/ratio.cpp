// SPDX-License-Identifier: GPL-3.0-or-later
#include <cmath>
#include <functional>

#include "core/assay/compare.h"

namespace prillbook {
namespace {

// Where `low_side`, true at `from`, turns false on the way to `to`; bisection also meets a step of the interval's method.
double turning_point(const std::function<bool(double)>& low_side, double from, double to) {
  for (int i = 0; i < 200 && to - from > 1e-14 * to; ++i) {
    const double middle = from + (to - from) / 2;
    (low_side(middle) ? from : to) = middle;
  }
  return from + (to - from) / 2;
}

// First of start + step, start + 2 step, start + 4 step ... where `low_side` is false.
std::optional<double> beyond(const std::function<bool(double)>& low_side, double start, double step) {
  for (int i = 0; i < 1000; ++i, step *= 2) {
    if (!std::isfinite(start + step)) return std::nullopt;
    if (!low_side(start + step)) return start + step;
  }
  return std::nullopt;
}

}  // namespace

RatioInterval ratio_interval(double a, std::span<const Contribution> a_parts, double b, std::span<const Contribution> b_parts) {
  const auto difference = [&](double ratio) {
    std::vector<Contribution> parts(a_parts.begin(), a_parts.end());
    for (const Contribution& part : b_parts) parts.push_back(scaled(part, -ratio));
    return spread(a - ratio * b, parts);
  };
  const auto too_low = [&](double ratio) { return difference(ratio).lo > 0; };
  const auto not_too_high = [&](double ratio) { return difference(ratio).hi >= 0; };
  const double estimate = b > 0 ? a / b : 0;
  const double scale = b > 0 ? (a + combined_u(a_parts)) / b : 1;
  const double step = scale > 0 ? scale * 1e-3 : 1e-3;

  RatioInterval result;
  if (too_low(0)) {
    const std::optional<double> end = b > 0 ? std::optional(estimate) : beyond(too_low, 0, step);
    if (end) result.lo = turning_point(too_low, 0, *end);
  }
  if (!(b > 0) || spread(b, b_parts).lo <= 0) return result;
  if (const std::optional<double> end = beyond(not_too_high, estimate, step))
    result.hi = turning_point(not_too_high, estimate, *end);
  return result;
}

}  // namespace prillbook
