// SPDX-License-Identifier: GPL-3.0-or-later
// How far a portion may differ from its lot because gold comes in whole grains: Poisson count of equal spheres.
#pragma once

#include <optional>

#include "core/units/units.h"

namespace prillbook {

inline constexpr Density gold_density{19.3, unit::gram_per_cubic_centimetre};

// Domain: diameter > 0, density > 0.
Mass sphere_mass(Opening diameter, Density density = gold_density);
// Grains expected in a portion of this grade. Domain: as above, grade >= 0, portion >= 0.
double expected_grains(Grade grade, Mass portion, Opening diameter, Density density = gold_density);
// 1/sqrt(n) of the grade; nullopt where no grain is expected.
std::optional<Grade> grain_sampling_sd(Grade grade, Mass portion, Opening diameter, Density density = gold_density);

}  // namespace prillbook
