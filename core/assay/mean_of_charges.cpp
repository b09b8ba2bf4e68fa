// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/assay/mean_of_charges.h"

#include <fmt/format.h>

#include <cmath>

namespace prillbook {
namespace {

Result<void> check(std::span<const ChargeGrade> charges) {
  for (std::size_t i = 0; i < charges.size(); ++i) {
    const bool valid = charges[i].state == ChargeState::valid;
    if (!valid && charges[i].reason.empty())
      return Error{ErrorCode::missing_key, fmt::format("charges[{}].reason", i), "a charge is left out only with its reason", {}};
    if (valid && !charges[i].grade) return Error{ErrorCode::missing_key, fmt::format("charges[{}].grade", i), "no grade", {}};
  }
  return {};
}

std::vector<const MeasuredGrade*> valid_grades(std::span<const ChargeGrade> charges) {
  std::vector<const MeasuredGrade*> grades;
  for (const ChargeGrade& charge : charges)
    if (charge.state == ChargeState::valid) grades.push_back(&*charge.grade);
  return grades;
}

// Parts of all charges, each divided by n; empty where one of them has none.
std::vector<Contribution> own_parts(const std::vector<const MeasuredGrade*>& grades) {
  std::vector<Contribution> parts;
  for (const MeasuredGrade* grade : grades) {
    if (grade->parts.empty()) return {};
    for (const Contribution& part : grade->parts) parts.push_back(scaled(part, 1 / static_cast<double>(grades.size())));
  }
  return parts;
}

}  // namespace

Result<MeanOfCharges> mean_of_charges(std::span<const ChargeGrade> charges) {
  PRILLBOOK_TRY(check(charges));
  const std::vector<const MeasuredGrade*> grades = valid_grades(charges);
  MeanOfCharges result;
  result.valid = static_cast<int>(grades.size());
  if (grades.empty()) return result;
  if (grades.size() == 1) {
    result.mean = *grades.front();
    return result;
  }
  const double n = static_cast<double>(grades.size());
  double sum = 0, squares = 0;
  for (const MeasuredGrade* grade : grades) sum += grade->g_t();
  for (const MeasuredGrade* grade : grades) squares += std::pow(grade->g_t() - sum / n, 2);
  const double sd = std::sqrt(squares / (n - 1));
  result.sd = Grade(sd, unit::gram_per_tonne);

  std::vector<Contribution> parts = own_parts(grades);
  // Equal figures without an uncertainty of their own say nothing of it.
  if (sd > 0 && sd / std::sqrt(n) >= spread(0, parts).u)
    parts = {normal_part(UncertaintySource::between_charges, sd / std::sqrt(n), n - 1)};
  result.mean = measured(Grade(sum / n, unit::gram_per_tonne), std::move(parts));
  return result;
}

}  // namespace prillbook
