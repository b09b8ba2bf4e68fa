// SPDX-License-Identifier: GPL-3.0-or-later
// The fundamental error of a portion by Gy's formula, and Ingamells' sampling constant from repeats.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "core/base/result.h"
#include "core/units/units.h"

namespace prillbook {

struct GyInput {
  Opening top_size;                                             // > 0: the opening that 95 % passes
  Opening liberation;                                           // > 0: size at which the gold is free
  Grade grade;                                                  // > 0
  Mass mass;                                                    // > 0: the portion
  std::optional<Share> target;                                  // > 0: relative standard deviation wanted, per cent
  std::optional<Mass> lot;                                      // >= mass; absent: much larger than the portion
  double shape = 0.5;                                           // > 0; source: lecture notes CM3820, 0.2 for flat gold
  double range_factor = 0.25;                                   // > 0; source: as shape, top size over four times the 5 % size
  double exponent = 1.5;                                        // 0 to 3; source: Minnitt, AusIMM 2017, default of the trade
  Density gold_density{19.3, unit::gram_per_cubic_centimetre};  // > 0
};

struct GyResult {
  double relative_sd_pct = 0;
  std::string form;                 // formula and exponent used, for people
  bool gold_grain_governs = false;  // top size not above the liberation size: d = liberation size, l = 1
  std::optional<Mass> mass_for_target;
};

// s² = f g c l d³ (1/M - 1/L): c = gold density × 10⁶/grade, l = (liberation/top size)^(3 - exponent), sizes in cm.
// Sources: P. Gy, Chemom. Intell. Lab. Syst. 74 (2004) eq. 77; l and the mineral factor of low-grade gold from memory.
// Errors: inconsistent (portion heavier than the lot, field lot_g), out_of_range, not_finite.
Result<GyResult> gy_error(const GyInput& input);

struct IngamellsResult {
  double constant_g = 0;  // Ks: the mass that gives a relative standard deviation of 1 %
  double mean = 0;
  double sd = 0;  // n - 1
  std::optional<Mass> mass_for_target;
};

// Ks = mean mass × (relative sd in %)². Source: Ingamells, as taught in the sampling textbooks, from memory.
// Errors: inconsistent (as many masses as values; field values), too_small (fewer than two; field values),
// out_of_range (mean of the values not above 0; field values).
Result<IngamellsResult> ingamells(const std::vector<Mass>& masses, const std::vector<double>& values,
                                  std::optional<Share> target);

}  // namespace prillbook
