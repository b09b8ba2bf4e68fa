// SPDX-License-Identifier: GPL-3.0-or-later
// Several samples put together: each with its mass, its length or whatever it counts by.
#pragma once

#include <optional>
#include <vector>

#include "core/base/result.h"
#include "core/units/units.h"

namespace prillbook {

struct CompositePart {
  double weight = 0;  // > 0, in one unit for all parts
  Grade grade;        // >= 0
};

// Σ weight × grade/Σ weight. Errors: too_small (no parts), out_of_range, not_finite.
Result<Grade> composite_grade(const std::vector<CompositePart>& parts);

// Masses to take so that each part has its share of the whole. The shares need not add up to 100: they are taken as
// proportions. Errors: too_small, out_of_range.
Result<std::vector<Mass>> masses_for_shares(Mass whole, const std::vector<double>& shares);

}  // namespace prillbook
