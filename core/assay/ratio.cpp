// SPDX-License-Identifier: GPL-3.0-or-later
#include <boost/math/tools/toms748_solve.hpp>
#include <cmath>
#include <cstdint>
#include <functional>

#include "core/assay/compare.h"

namespace prillbook {
namespace {

using End = std::function<double(double)>;  // of the interval of a difference, by the ratio

double halved(const End& end, double from, double to) {
  for (int i = 0; i < 200 && to - from > 1e-14 * to; ++i) {
    const double middle = from + (to - from) / 2;
    (end(middle) > 0 ? from : to) = middle;
  }
  return from + (to - from) / 2;
}

// Where `end`, above 0 at `from`, falls to 0 on the way to `to`; a step of the interval's method in between is met as well.
double turning_point(const End& end, double from, double to) {
  const double at_from = end(from), at_to = end(to);
  if (!(at_from > 0)) return from;
  if (!(at_to < 0)) return to;
  if (!std::isfinite(at_from - at_to)) return halved(end, from, to);
  std::uintmax_t iterations = 200;
  const boost::math::tools::eps_tolerance<double> near_enough(47);
  const auto bracket = boost::math::tools::toms748_solve(end, from, to, at_from, at_to, near_enough, iterations);
  return bracket.first + (bracket.second - bracket.first) / 2;
}

// First of start + step, start + 2 step, start + 4 step ... where `end` is not above 0.
std::optional<double> beyond(const End& end, double start, double step) {
  for (int i = 0; i < 1000; ++i, step *= 2) {
    if (!std::isfinite(start + step)) return std::nullopt;
    if (!(end(start + step) > 0)) return start + step;
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
  const End low = [&](double ratio) { return difference(ratio).lo; };
  const End high = [&](double ratio) { return difference(ratio).hi; };
  const double estimate = b > 0 ? a / b : 0;
  const double scale = b > 0 ? (a + combined_u(a_parts)) / b : 1;
  const double step = scale > 0 ? scale * 1e-3 : 1e-3;

  RatioInterval result;
  if (low(0) > 0) {
    const std::optional<double> end = b > 0 ? std::optional(estimate) : beyond(low, 0, step);
    if (end) result.lo = turning_point(low, 0, *end);
  }
  if (!(b > 0) || spread(b, b_parts).lo <= 0) return result;
  if (const std::optional<double> end = beyond(high, estimate, step)) result.hi = turning_point(high, estimate, *end);
  return result;
}

}  // namespace prillbook
