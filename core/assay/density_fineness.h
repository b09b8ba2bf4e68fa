// SPDX-License-Identifier: GPL-3.0-or-later
// Fineness of a gold-silver bead from its weight in air and under a liquid. Copper makes it read low.
// Source: Beringer p. 84-85 (solid density; share of the heavier part of a mixture without change of volume).
#pragma once

#include <optional>

#include "core/base/result.h"
#include "core/units/units.h"

namespace prillbook {

struct DensityInput {
  Mass air;                                                 // > 0
  Mass immersed;                                            // >= 0
  Density liquid{0.9982, unit::gram_per_cubic_centimetre};  // water at 20 degrees Celsius
  Density gold{19.3, unit::gram_per_cubic_centimetre};
  Density silver{10.5, unit::gram_per_cubic_centimetre};
  std::optional<Mass> balance_step;  // > 0
};

struct DensityFineness {
  Density density;
  Fineness fineness;
  std::optional<Fineness> u;  // first order, from the two readings; absent without a step
};

// The loss of weight must be at least this many balance steps.
inline constexpr double least_loss_steps = 20;

// Errors: out_of_range (a mass or density; immersed_g where the density lies outside silver to gold), inconsistent
// (immersed_g above air_g; gold_density not above silver_density), too_small (immersed_g: loss under 20 steps), not_finite.
Result<DensityFineness> fineness_by_density(const DensityInput& input);

}  // namespace prillbook
