// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/preparation/composite.h"

#include <cmath>

namespace prillbook {

Result<Grade> composite_grade(const std::vector<CompositePart>& parts) {
  if (parts.empty()) return refusal(ErrorCode::too_small, "parts", "a composite has at least one part");
  double weights = 0, metal = 0;
  for (const CompositePart& part : parts) {
    const double grade = part.grade.in(unit::gram_per_tonne);
    if (!std::isfinite(part.weight) || part.weight <= 0)
      return refusal(ErrorCode::out_of_range, "parts", "a part weighs more than zero");
    if (!std::isfinite(grade) || grade < 0) return refusal(ErrorCode::out_of_range, "parts", "a grade is not below 0");
    weights += part.weight;
    metal += part.weight * grade;
  }
  if (!std::isfinite(weights) || !std::isfinite(metal))
    return refusal(ErrorCode::not_finite, "parts", "the composite can't be expressed");
  return Grade(metal / weights, unit::gram_per_tonne);
}

Result<std::vector<Mass>> masses_for_shares(Mass whole, const std::vector<double>& shares) {
  if (shares.empty()) return refusal(ErrorCode::too_small, "shares", "a composite has at least one part");
  if (!(whole > Mass{}) || !std::isfinite(whole.in(unit::gram)))
    return refusal(ErrorCode::out_of_range, "whole_g", "a composite has a mass above zero");
  double sum = 0;
  for (const double share : shares) {
    if (!std::isfinite(share) || share <= 0) return refusal(ErrorCode::out_of_range, "shares", "a share is above 0");
    sum += share;
  }
  if (!std::isfinite(sum)) return refusal(ErrorCode::out_of_range, "shares", "the shares are too large");
  std::vector<Mass> masses;
  for (const double share : shares) masses.push_back(whole * (share / sum));
  return masses;
}

}  // namespace prillbook
