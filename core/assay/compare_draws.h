// SPDX-License-Identifier: GPL-3.0-or-later
// Pan against fire by draws, beside the first order.
#pragma once

#include "core/assay/compare.h"
#include "core/assay/monte_carlo.h"

namespace prillbook {

struct DrawnComparison {
  std::int64_t draws = 0;
  std::uint64_t seed = 0;
  Drawn pan, fire, gap;          // g/t
  Drawn recovery;                // a fraction
  double left_behind_share = 0;  // of the draws in which fire found more than the pan caught
  std::optional<Agreement> gap_agreement, recovery_agreement;
};

// Each side is drawn part by part, sampling included where the comparison includes it; a grade below 0 is drawn as 0.
// Errors: missing_key where a side has no uncertainty; out_of_range (draws), cancelled.
Result<DrawnComparison> draw_comparison(const Comparison& comparison, const DrawOptions& options);

}  // namespace prillbook
