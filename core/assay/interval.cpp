// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/assay/interval.h"

#include <algorithm>
#include <boost/math/distributions/normal.hpp>
#include <boost/math/distributions/students_t.hpp>
#include <boost/math/tools/toms748_solve.hpp>
#include <cmath>
#include <cstdint>
#include <numbers>

namespace prillbook {
namespace {

// Figures are printed to three or four digits: the fifteen of a double are enough, and three times as quick as going through
// long double, which Boost does if not told otherwise.
using InDouble = boost::math::policies::policy<boost::math::policies::promote_double<false>>;
using StudentsT = boost::math::students_t_distribution<double, InDouble>;
using Normal = boost::math::normal_distribution<double, InDouble>;

constexpr double many_dof = 1e6;  // t and normal agree to 1e-6 from here on

double quantile_of_rest(double p, double dof) {
  if (dof >= many_dof) return boost::math::quantile(Normal(), p);
  return boost::math::quantile(StudentsT(dof), p);
}

// Antiderivative of the distribution function of the rest, so that the convolution with a rectangle is a difference.
double integrated_cdf(double y, double dof) {
  if (dof >= many_dof) {
    const Normal unit_normal;
    return y * boost::math::cdf(unit_normal, y) + boost::math::pdf(unit_normal, y);
  }
  const StudentsT t(dof);
  const double area = y * boost::math::cdf(t, y);
  if (dof == 1) return area - std::log1p(y * y) / (2 * std::numbers::pi);
  return area + (dof + y * y) / (dof - 1) * boost::math::pdf(t, y);
}

// Index of the rectangle that holds more than half of the variance; parts.size() where there is none.
std::size_t dominating_rectangle(std::span<const Contribution> parts, double u) {
  for (std::size_t i = 0; i < parts.size(); ++i)
    if (parts[i].rectangle && parts[i].u > u * std::numbers::sqrt2 / 2) return i;
  return parts.size();
}

Spread convolved(double value, std::span<const Contribution> parts, std::size_t rectangle, Spread result) {
  std::vector<Contribution> rest(parts.begin(), parts.end());
  rest.erase(rest.begin() + static_cast<std::ptrdiff_t>(rectangle));
  const Contribution& part = parts[rectangle];
  const double u = combined_u(rest), dof = effective_dof(rest);
  result.method = IntervalMethod::convolution;
  // Rectangle and rest are symmetric, each about its middle.
  const double below = convolved_quantile(0.025, part.low, part.high, u, dof);
  result.lo = value + below;
  result.hi = value + part.low + part.high - below;
  result.k = (result.hi - result.lo) / (2 * result.u);
  return result;
}

}  // namespace

std::string_view source_name(UncertaintySource source) {
  switch (source) {
    case UncertaintySource::bead_step: return "bead_step";
    case UncertaintySource::bead_repeats: return "bead_repeats";
    case UncertaintySource::portion_step: return "portion_step";
    case UncertaintySource::fineness: return "fineness";
    case UncertaintySource::parted_gold: return "parted_gold";
    case UncertaintySource::slag: return "slag";
    case UncertaintySource::cupel: return "cupel";
    case UncertaintySource::collector: return "collector";
    case UncertaintySource::collector_loss: return "collector_loss";
    case UncertaintySource::sampling: return "sampling";
    case UncertaintySource::between_charges: return "between_charges";
  }
  return "";
}

Contribution normal_part(UncertaintySource source, double u, double dof) { return {source, u, dof, false, 0, 0}; }

Contribution rectangle_part(UncertaintySource source, double low, double high) {
  return {source, (high - low) / std::sqrt(12.0), infinite_dof, true, low, high};
}

Contribution scaled(const Contribution& part, double factor) {
  Contribution result = part;
  result.u = part.u * std::abs(factor);
  result.low = std::min(part.low * factor, part.high * factor);
  result.high = std::max(part.low * factor, part.high * factor);
  return result;
}

double combined_u(std::span<const Contribution> parts) {
  double sum = 0;
  for (const Contribution& part : parts) sum = std::hypot(sum, part.u);
  return sum;
}

double coverage_factor(double dof) { return quantile_of_rest(0.975, dof); }

double effective_dof(std::span<const Contribution> parts) {
  const double u = combined_u(parts);
  double sum = 0;  // of (u_i/u)^4 / dof_i: ratios stay in range where fourth powers would not
  for (const Contribution& part : parts)
    if (std::isfinite(part.dof) && part.u > 0) sum += std::pow(part.u / u, 4) / part.dof;
  if (!(sum > 0)) return infinite_dof;
  const double dof = 1 / sum * (1 + 1e-12);
  return dof >= many_dof ? infinite_dof : std::max(1.0, std::floor(dof));
}

double convolved_quantile(double p, double low, double high, double u, double dof) {
  const double width = high - low;
  if (!(u > 1e-7 * width)) return low + p * width;
  const double q = quantile_of_rest(p, dof);
  const auto excess = [&](double x) {
    return u / width * (integrated_cdf((x - low) / u, dof) - integrated_cdf((x - high) / u, dof)) - p;
  };
  const double from = low + q * u, to = high + q * u;
  if (!(width > 1e-7 * u)) return from + p * width;
  const double at_from = excess(from), at_to = excess(to);
  if (!(at_from < 0)) return from;
  if (!(at_to > 0)) return to;
  std::uintmax_t iterations = 200;
  const auto bracket = boost::math::tools::toms748_solve(excess, from, to, at_from, at_to,
                                                         boost::math::tools::eps_tolerance<double>(45), iterations);
  return (bracket.first + bracket.second) / 2;
}

Spread spread(double value, std::span<const Contribution> parts) {
  Spread result;
  result.u = combined_u(parts);
  result.dof = effective_dof(parts);
  result.k = coverage_factor(result.dof);
  result.lo = value - result.k * result.u;
  result.hi = value + result.k * result.u;
  if (!std::isfinite(result.u)) return result;
  const std::size_t rectangle = dominating_rectangle(parts, result.u);
  return rectangle == parts.size() ? result : convolved(value, parts, rectangle, result);
}

}  // namespace prillbook
