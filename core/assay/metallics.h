// SPDX-License-Identifier: GPL-3.0-or-later
// Screen assay for coarse metal: the whole coarse fraction is assayed, the fine one by portions.
// Source of the method: Beringer, A Text-book of Assaying, 9th ed., p. 108-109.
#pragma once

#include <optional>
#include <vector>

#include "core/base/result.h"
#include "core/units/units.h"

namespace prillbook {

struct FinePortion {
  Mass portion;  // > 0
  Mass metal;    // >= 0
};

struct MetallicsInput {
  Mass coarse_mass;               // >= 0, all of it assayed
  Mass coarse_metal;              // >= 0
  Mass fine_mass;                 // > 0
  std::vector<FinePortion> fine;  // at least one
};

struct MetallicsResult {
  Grade grade;                         // (coarse metal + mean fine grade x fine mass) / (coarse mass + fine mass)
  Grade fine_grade;                    // mean of the portions
  std::optional<double> coarse_share;  // of all metal, a fraction; absent where there is no metal
  std::optional<Grade> u;              // from the scatter of the fine portions; two or more
};

// Errors: out_of_range, too_small (fine: none), inconsistent (more metal than what held it, portions above the fine mass),
// not_finite.
Result<MetallicsResult> metallics(const MetallicsInput& input);

}  // namespace prillbook
