// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/preparation/grains.h"

#include <boost/math/distributions/chi_squared.hpp>
#include <boost/math/distributions/poisson.hpp>
#include <cmath>
#include <numbers>

namespace prillbook {
namespace {

namespace policies = boost::math::policies;
// Errors come back as the best value found instead of an exception; counts round up to the quantile defined above.
using Quiet =
    policies::policy<policies::domain_error<policies::ignore_error>, policies::pole_error<policies::ignore_error>,
                     policies::overflow_error<policies::ignore_error>, policies::evaluation_error<policies::ignore_error>,
                     policies::rounding_error<policies::ignore_error>, policies::discrete_quantile<policies::integer_round_up>>;
using Poisson = boost::math::poisson_distribution<double, Quiet>;
using ChiSquared = boost::math::chi_squared_distribution<double, Quiet>;

// Above this mean the law is normal to far below one grain in its own standard deviation.
constexpr double normal_from = 1e8;

bool above_zero(double value) { return std::isfinite(value) && value > 0; }

}  // namespace

Mass grain_mass(const GrainShape& grain) {
  const double d_cm = grain.diameter.in(unit::centimetre);
  const double cube = d_cm * d_cm * d_cm;
  const double volume = grain.flatness ? std::numbers::pi / 4 * cube * *grain.flatness : std::numbers::pi / 6 * cube;
  return Mass(volume * grain.density.in(unit::gram_per_cubic_centimetre), unit::gram);
}

double poisson_quantile(double expected, double probability) {
  if (expected <= 0) return 0;
  if (expected >= normal_from) {
    const double z = std::numbers::sqrt2 * boost::math::erf_inv(2 * probability - 1, Quiet{});
    return std::ceil(expected + z * std::sqrt(expected) + (z * z - 1) / 6 - 0.5);
  }
  const Poisson law(expected);
  double k = std::max(std::ceil(quantile(law, probability)), 0.0);
  // The root finder may stop one step off where the law lies on the probability to within rounding.
  while (k > 0 && cdf(law, k - 1) >= probability) --k;
  while (cdf(law, k) < probability) ++k;
  return k;
}

Result<GrainCount> grain_count(Grade grade, Mass portion, const GrainShape& grain) {
  if (!above_zero(grade.in(unit::gram_per_tonne)))
    return refusal(ErrorCode::out_of_range, "grade_g_t", "the grade must be above 0");
  if (!above_zero(portion.in(unit::gram))) return refusal(ErrorCode::out_of_range, "mass_g", "the mass must be above 0");
  if (!above_zero(grain.diameter.in(unit::micrometre)))
    return refusal(ErrorCode::out_of_range, "grain_um", "the size of a grain must be above 0");
  if (grain.flatness && !(*grain.flatness > 0 && *grain.flatness <= 1))
    return refusal(ErrorCode::out_of_range, "flatness", "thickness over diameter lies above 0 and up to 1");
  if (!above_zero(grain.density.in(unit::gram_per_cubic_centimetre)))
    return refusal(ErrorCode::out_of_range, "gold_density", "the density must be above 0");
  GrainCount count;
  count.expected = portion * (grade.in(unit::gram_per_tonne) / 1e6) / grain_mass(grain);
  if (!above_zero(count.expected)) return refusal(ErrorCode::not_finite, "grain_um", "the number of grains can't be expressed");
  count.relative_sd_pct = 100 / std::sqrt(count.expected);
  count.none_probability = std::exp(-count.expected);
  count.lo = poisson_quantile(count.expected, 0.025);
  count.hi = poisson_quantile(count.expected, 0.975);
  return count;
}

MeanRange poisson_mean_range(double count) {
  const double lo = count > 0 ? quantile(ChiSquared(2 * count), 0.025) / 2 : 0;
  return {lo, quantile(ChiSquared(2 * count + 2), 0.975) / 2};
}

}  // namespace prillbook
