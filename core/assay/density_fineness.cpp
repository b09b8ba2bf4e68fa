// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/assay/density_fineness.h"

#include <algorithm>
#include <cmath>

namespace prillbook {
namespace {

constexpr auto& g_cm3 = unit::gram_per_cubic_centimetre;

Result<void> check(const DensityInput& input) {
  if (!(input.air > Mass())) return refusal(ErrorCode::out_of_range, "air_g", "the weight in air is above 0");
  if (!(input.immersed >= Mass())) return refusal(ErrorCode::out_of_range, "immersed_g", "a weight is not below 0");
  if (!(input.liquid > Density())) return refusal(ErrorCode::out_of_range, "liquid_density", "a density is above 0");
  if (!(input.gold > Density())) return refusal(ErrorCode::out_of_range, "gold_density", "a density is above 0");
  if (!(input.silver > Density())) return refusal(ErrorCode::out_of_range, "silver_density", "a density is above 0");
  if (input.balance_step && !(*input.balance_step > Mass()))
    return refusal(ErrorCode::out_of_range, "balance_step_g", "a balance step is above 0");
  if (!(input.gold > input.silver)) return refusal(ErrorCode::inconsistent, "gold_density", "gold is the denser of the two");
  if (input.immersed > input.air) return refusal(ErrorCode::inconsistent, "immersed_g", "the bead weighs more under the liquid");
  // Readings are written to a number of steps, so that a loss of exactly the limit may miss it by an ulp.
  if (input.balance_step && input.air - input.immersed < *input.balance_step * (least_loss_steps - 1e-6))
    return refusal(ErrorCode::too_small, "immersed_g", "the loss of weight is under 20 balance steps");
  return {};
}

}  // namespace

Result<DensityFineness> fineness_by_density(const DensityInput& input) {
  PRILLBOOK_TRY(check(input));
  const Mass loss = input.air - input.immersed;
  const double liquid = input.liquid.in(g_cm3), gold = input.gold.in(g_cm3), silver = input.silver.in(g_cm3);
  const double density = input.air / loss * liquid;
  if (!(density >= silver * (1 - 1e-9) && density <= gold * (1 + 1e-9)))
    return refusal(ErrorCode::out_of_range, "immersed_g", "the density lies outside silver to gold");

  DensityFineness result;
  result.density = Density(density, g_cm3);
  const double span = 1000 * (gold / (gold - silver));
  result.fineness = Fineness(std::clamp(span * (1 - silver / density), 0.0, 1000.0), unit::permil);
  if (input.balance_step) {
    const double step = *input.balance_step / loss / std::sqrt(12.0);
    const double by_air = liquid * (input.immersed / loss) * step, by_immersed = liquid * (input.air / loss) * step;
    result.u = Fineness(span * silver / density / density * std::hypot(by_air, by_immersed), unit::permil);
    if (!std::isfinite(result.u->in(unit::permil))) return refusal(ErrorCode::not_finite, "balance_step_g", "not finite");
  }
  return result;
}

}  // namespace prillbook
