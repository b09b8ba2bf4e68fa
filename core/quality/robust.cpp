// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/quality/robust.h"

#include <algorithm>
#include <boost/math/distributions/normal.hpp>
#include <boost/math/distributions/students_t.hpp>
#include <cmath>

#include "core/quality/pairs.h"

namespace prillbook {
namespace {

namespace policies = boost::math::policies;
using Quiet =
    policies::policy<policies::domain_error<policies::ignore_error>, policies::pole_error<policies::ignore_error>,
                     policies::overflow_error<policies::ignore_error>, policies::evaluation_error<policies::ignore_error>>;
using Normal = boost::math::normal_distribution<double, Quiet>;
using StudentsT = boost::math::students_t_distribution<double, Quiet>;

constexpr int most_steps = 20'000;
constexpr double tolerance = 1e-13;  // of a step, in scales: convergence is linear, so well below the 1e-9 promised
constexpr double collapsed = 1e-12;  // scale against the starting one

struct Moments {
  double mean = 0, sd = 0;
};

Moments moments(const std::vector<double>& values) {
  const double n = static_cast<double>(values.size());
  Moments m;
  for (const double value : values) m.mean += value / n;
  double squares = 0;
  for (const double value : values) squares += (value - m.mean) * (value - m.mean);
  m.sd = std::sqrt(squares / (n - 1));
  return m;
}

double mad_sd(const std::vector<double>& values, double centre) {
  std::vector<double> deviations;
  for (const double value : values) deviations.push_back(std::abs(value - centre));
  return median(std::move(deviations)) / quantile(Normal{}, 0.75);
}

// One step: values pulled in to ±k scales, then their mean and their spread corrected by β.
HuberEstimate stepped(const std::vector<double>& values, const HuberEstimate& from, double k, double beta) {
  const double n = static_cast<double>(values.size()), low = from.mean - k * from.sd, high = from.mean + k * from.sd;
  double mean = 0, squares = 0;
  for (const double value : values) mean += std::clamp(value, low, high) / n;
  for (const double value : values) {
    const double off = std::clamp(value, low, high) - mean;
    squares += off * off;
  }
  return {mean, std::sqrt(squares / (n - 1) / beta)};
}

// The two equations solved outright for the values that `near` leaves unclipped; nullopt unless the solution clips the
// same ones.
std::optional<HuberEstimate> solved(const std::vector<double>& values, const HuberEstimate& near, double k, double beta) {
  const auto side = [k](double value, const HuberEstimate& at) {
    return value > at.mean + k * at.sd ? 1 : value < at.mean - k * at.sd ? -1 : 0;
  };
  double inside = 0, high = 0, low = 0, mean = 0;
  for (const double value : values) {
    const int where = side(value, near);
    (where > 0 ? high : where < 0 ? low : inside) += 1;
    if (where == 0) mean += value;
  }
  if (inside == 0) return std::nullopt;
  mean /= inside;
  double squares = 0;
  for (const double value : values)
    if (side(value, near) == 0) squares += (value - mean) * (value - mean);
  const double skew = high - low, n = static_cast<double>(values.size());
  const double divisor = (n - 1) * beta - k * k * (high + low + skew * skew / inside);
  if (!(divisor > 0)) return std::nullopt;
  HuberEstimate found;
  found.sd = std::sqrt(squares / divisor);
  found.mean = mean + k * found.sd * skew / inside;
  const bool same =
      std::all_of(values.begin(), values.end(), [&](double value) { return side(value, near) == side(value, found); });
  return same && found.sd > 0 ? std::optional(found) : std::nullopt;
}

}  // namespace

double huber_beta(double k) {
  const Normal normal;
  const double inside = std::erf(k / std::sqrt(2.0));
  return inside + k * k * 2 * cdf(complement(normal, k)) - 2 * k * pdf(normal, k);
}

HuberEstimate huber_proposal_2(const std::vector<double>& values, double k) {
  const double beta = huber_beta(k), centre = median(values), mad = mad_sd(values, centre);
  const double start = mad > 0 ? mad : moments(values).sd;
  HuberEstimate now{centre, start};
  for (int step = 0; step < most_steps && now.sd > collapsed * start; ++step) {
    if (const auto exact = solved(values, now, k, beta)) return *exact;
    const HuberEstimate next = stepped(values, now, k, beta);
    const double moved = std::max(std::abs(next.mean - now.mean), std::abs(next.sd - now.sd));
    now = next;
    if (!(moved > tolerance * now.sd)) return now;
  }
  return now.sd > collapsed * start ? now : HuberEstimate{centre, 0};
}

double grubbs_critical(std::size_t n, double alpha, bool two_sided) {
  const double count = static_cast<double>(n);
  const double t = quantile(complement(StudentsT(count - 2), alpha / (two_sided ? 2 * count : count)));
  return (count - 1) / std::sqrt(count) * std::sqrt(t * t / (count - 2 + t * t));
}

Result<RobustResult> robust_statistics(const std::vector<double>& values, double k) {
  if (values.size() < 3) return Error{ErrorCode::too_small, "values", "at least three values are needed", {}};
  if (!(k >= 0.1 && k <= 100)) return Error{ErrorCode::out_of_range, "k", "k lies from 0.1 to 100", {}};
  const Moments m = moments(values);
  if (!std::isfinite(m.mean) || !std::isfinite(m.sd))
    return Error{ErrorCode::not_finite, "values", "the values can't be averaged", {}};
  RobustResult result;
  result.median = median(values);
  result.mad_sd = mad_sd(values, result.median);
  result.huber = huber_proposal_2(values, k);
  result.grubbs_critical = grubbs_critical(values.size(), 0.05, true);
  const auto [least, most] = std::minmax_element(values.begin(), values.end());
  if (*most > *least && m.sd > 0) result.grubbs_g = std::max(*most - m.mean, m.mean - *least) / m.sd;
  return result;
}

}  // namespace prillbook
