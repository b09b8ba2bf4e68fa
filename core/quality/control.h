// SPDX-License-Identifier: GPL-3.0-or-later
// Control-chart rules for a series of results on one reference material.
#pragma once

#include <string_view>
#include <vector>

#include "core/base/result.h"

namespace prillbook {

enum class ControlRule {
  warning_1_2s,  // one value beyond 2 sd: a warning only
  reject_1_3s,   // one beyond 3 sd
  reject_2_2s,   // two running beyond the same 2 sd
  reject_r_4s,   // two running more than 4 sd apart
  reject_4_1s,   // four running beyond the same 1 sd
  reject_10x,    // ten running on one side of the target
};
std::string_view contract_name(ControlRule rule);  // "1-2s", "1-3s", "2-2s", "R-4s", "4-1s", "10x"

struct ControlSignal {
  std::size_t index = 0;  // from 0: the value that breaks the rule, or completes the run that does
  ControlRule rule = ControlRule::warning_1_2s;
  friend bool operator==(const ControlSignal&, const ControlSignal&) = default;
};

// Signals in order of index. Of the two single-value rules the more serious one only. A run that goes on signals again
// at each further value, as the newest ones still break the rule. Limits count as inside.
// Source of the rules: Westgard's multirule table as printed in PMC3909142, table 1.
// Errors: too_small (no value; field values), out_of_range (sd not above 0; field sd), not_finite.
Result<std::vector<ControlSignal>> control_signals(const std::vector<double>& values, double target, double sd);

}  // namespace prillbook
