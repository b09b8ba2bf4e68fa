// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/assay/metallics.h"

#include <fmt/format.h>

#include <cmath>

namespace prillbook {
namespace {

Result<void> check_fine(const MetallicsInput& input) {
  if (input.fine.empty()) return refusal(ErrorCode::too_small, "fine", "at least one fine portion is needed");
  Mass used;
  for (std::size_t i = 0; i < input.fine.size(); ++i) {
    const auto& [portion, metal] = input.fine[i];
    const auto field = [&](std::string_view key) { return fmt::format("fine[{}].{}", i, key); };
    if (!(portion > Mass())) return refusal(ErrorCode::out_of_range, field("portion_g"), "a portion is above 0");
    if (!(metal >= Mass())) return refusal(ErrorCode::out_of_range, field("metal_mg"), "metal is not below 0");
    if (metal > portion) return refusal(ErrorCode::inconsistent, field("metal_mg"), "more metal than the portion weighs");
    used += portion;
    if (used > input.fine_mass * (1 + 1e-9))
      return refusal(ErrorCode::inconsistent, field("portion_g"), "the fine portions weigh more than the fine fraction");
  }
  return {};
}

Result<void> check(const MetallicsInput& input) {
  if (!(input.coarse_mass >= Mass())) return refusal(ErrorCode::out_of_range, "coarse_mass_g", "a mass is not below 0");
  if (!(input.coarse_metal >= Mass())) return refusal(ErrorCode::out_of_range, "coarse_metal_mg", "metal is not below 0");
  if (!(input.fine_mass > Mass())) return refusal(ErrorCode::out_of_range, "fine_mass_g", "the fine mass is above 0");
  if (input.coarse_metal > input.coarse_mass)
    return refusal(ErrorCode::inconsistent, "coarse_metal_mg", "more metal than the coarse fraction weighs");
  return check_fine(input);
}

}  // namespace

Result<MetallicsResult> metallics(const MetallicsInput& input) {
  PRILLBOOK_TRY(check(input));
  const double n = static_cast<double>(input.fine.size());
  Grade sum;
  for (const FinePortion& fine : input.fine) sum += grade(fine.metal, fine.portion);
  MetallicsResult result;
  result.fine_grade = sum / n;

  const Mass total = input.coarse_mass + input.fine_mass;
  const double fine_weight = input.fine_mass / total;
  const Grade coarse = grade(input.coarse_metal, total);
  result.grade = coarse + result.fine_grade * fine_weight;
  if (result.grade > Grade()) result.coarse_share = coarse / result.grade;
  if (input.fine.size() > 1) {
    double squares = 0;
    for (const FinePortion& fine : input.fine)
      squares += std::pow((grade(fine.metal, fine.portion) - result.fine_grade).in(unit::gram_per_tonne), 2);
    result.u = Grade(fine_weight * std::sqrt(squares / (n - 1) / n), unit::gram_per_tonne);
  }
  if (!std::isfinite(result.grade.in(unit::gram_per_tonne)))
    return refusal(ErrorCode::not_finite, "fine_mass_g", "the grade is not finite");
  return result;
}

}  // namespace prillbook
