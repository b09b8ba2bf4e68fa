// SPDX-License-Identifier: GPL-3.0-or-later
// What a composite will be like, while it is still being put together.
#pragma once

#include <optional>
#include <vector>

#include "core/milling/composites.h"
#include "core/results/machine_risk.h"

namespace prillbook::results {

struct CompositeOutlook {
  Mass total;                               // of the shares that are weighed
  std::vector<std::optional<Share>> parts;  // of the total, one a share; none where it is not weighed
  // One a share: what to take of it so that all shares are as wanted, by the first that is weighed; none where it is
  // weighed already, or where not every share says what is wanted.
  std::vector<std::optional<Mass>> to_take;
  std::optional<Grade> grade;              // once every share is weighed: the mean of their likely grades by mass
  GradeBasis basis = GradeBasis::assayed;  // of the share of which least is known
};

// Errors: not_found where a sample is not there; as likely_grade.
Result<CompositeOutlook> composite_outlook(store::Connection& connection, const std::vector<milling::NewShare>& shares,
                                           const lab::Settings& settings);

}  // namespace prillbook::results
