// SPDX-License-Identifier: GPL-3.0-or-later
// A series set against its target, in standard deviations.
#pragma once

#include <vector>

#include "core/base/result.h"

namespace prillbook {

inline constexpr double score_rounding = 1e-9;  // in standard deviations: a value typed on a limit is inside

// Errors: too_small (no value; field values), out_of_range (sd not above 0; field sd), not_finite (field values).
Result<std::vector<double>> control_scores(const std::vector<double>& values, double target, double sd);

}  // namespace prillbook
