// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/quality/scores.h"

#include <algorithm>
#include <cmath>

namespace prillbook {

Result<std::vector<double>> control_scores(const std::vector<double>& values, double target, double sd) {
  if (values.empty()) return Error{ErrorCode::too_small, "values", "at least one value is needed", {}};
  if (!(sd > 0) || !std::isfinite(sd)) return Error{ErrorCode::out_of_range, "sd", "the standard deviation must be above 0", {}};
  std::vector<double> scores;
  for (const double value : values) scores.push_back((value - target) / sd);
  if (!std::all_of(scores.begin(), scores.end(), [](double z) { return std::isfinite(z); }))
    return Error{ErrorCode::not_finite, "values", "a value can't be set against the target", {}};
  return scores;
}

}  // namespace prillbook
