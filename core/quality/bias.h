// SPDX-License-Identifier: GPL-3.0-or-later
// Results on a reference material against its certified value.
#pragma once

#include <optional>

#include "core/base/result.h"

namespace prillbook {

// Both values in one unit; uncertainties standard (k = 1), >= 0; absent where not stated.
struct ReferenceComparison {
  double measured = 0;   // >= 0
  double certified = 0;  // > 0
  std::optional<double> u_measured, u_certified;
};

struct Bias {
  double difference = 0;  // measured - certified, in the unit of the values
  double relative_pct = 0;
  std::optional<double> zeta;  // difference in combined standard uncertainties; absent unless both are stated and not both 0
  std::optional<double> en;    // difference in combined expanded uncertainties, k = 2; within ±1 they agree
};

// A material without a stated uncertainty gives a difference and no score: none is made up.
// Source: zeta and En scores of ISO 13528 (from memory).
// Errors: out_of_range (fields measured, certified, u_measured, u_certified), not_finite (fields measured, certified).
Result<Bias> bias_against_certified(const ReferenceComparison& comparison);

}  // namespace prillbook
