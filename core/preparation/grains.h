// SPDX-License-Identifier: GPL-3.0-or-later
// Gold as a count of equal grains: how many a portion holds and how far the count scatters.
#pragma once

#include <optional>

#include "core/base/result.h"
#include "core/units/units.h"

namespace prillbook {

struct GrainShape {
  Opening diameter;                                        // > 0
  std::optional<double> flatness;                          // 0 < thickness/diameter <= 1 of a disc; absent: a sphere
  Density density{19.3, unit::gram_per_cubic_centimetre};  // > 0
};

// Mass of one grain: sphere π/6 d³ρ, disc π/4 d²·(flatness d)·ρ.
Mass grain_mass(const GrainShape& grain);

struct GrainCount {
  double expected = 0;
  double relative_sd_pct = 0;   // 100/√expected
  double none_probability = 0;  // e^-expected
  double lo = 0, hi = 0;        // central 95 % range of the count, whole numbers
};

// Poisson law of the count (a portion much smaller than its lot).
// Errors: out_of_range (grade, mass or grain outside its domain), not_finite (more grains than a double can count).
Result<GrainCount> grain_count(Grade grade, Mass portion, const GrainShape& grain);

// Smallest k with P(count <= k) >= probability, for a Poisson count of mean `expected`.
// Domain: expected >= 0, 0 < probability < 1.
double poisson_quantile(double expected, double probability);

struct MeanRange {
  double lo, hi;
};
// Exact central 95 % interval for the mean behind one observed count, from chi-squared quantiles (Garwood 1936).
// Domain: count >= 0, whole.
MeanRange poisson_mean_range(double count);

}  // namespace prillbook
