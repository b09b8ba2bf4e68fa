// SPDX-License-Identifier: GPL-3.0-or-later
// Several charges of one sample: all listed, the mean of the valid ones, an exclusion only with its reason.
#pragma once

#include <optional>
#include <span>
#include <string>
#include <vector>

#include "core/assay/grade.h"

namespace prillbook {

enum class ChargeState { valid, spoiled, excluded };

struct ChargeGrade {
  std::string label;
  ChargeState state = ChargeState::valid;
  std::string reason;                  // why it is spoiled or left out; needed for both
  std::optional<MeasuredGrade> grade;  // a valid charge has one
};

struct MeanOfCharges {
  int valid = 0;
  std::optional<MeasuredGrade> mean;  // absent where no charge is valid
  std::optional<Grade> sd;            // between the valid charges, divisor n - 1; two or more
};

// Uncertainty of the mean: the larger of what the charges bring themselves, sqrt(sum u^2)/n, and their scatter, sd/sqrt(n)
// with n - 1 degrees of freedom (which holds their own uncertainty and, unlike it, the sampling).
// Errors: missing_key (charges[i].reason, charges[i].grade).
Result<MeanOfCharges> mean_of_charges(std::span<const ChargeGrade> charges);

}  // namespace prillbook
