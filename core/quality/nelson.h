// SPDX-License-Identifier: GPL-3.0-or-later
// Nelson's eight tests for special causes on a control chart.
#pragma once

#include <vector>

#include "core/base/result.h"

namespace prillbook {

enum class NelsonRule {
  beyond_3s = 1,      // one beyond 3 sd
  nine_one_side,      // nine running on one side of the target
  six_monotone,       // six running, each above the last, or each below it
  fourteen_swinging,  // fourteen running, up and down by turns
  two_of_three_2s,    // two of three beyond the same 2 sd
  four_of_five_1s,    // four of five beyond the same 1 sd
  fifteen_within_1s,  // fifteen running within 1 sd: the limits are too wide
  eight_outside_1s,   // eight running outside 1 sd, on both sides
};

struct NelsonSignal {
  std::size_t index = 0;  // from 0: the value that breaks the rule, or completes the run that does
  NelsonRule rule = NelsonRule::beyond_3s;
  friend bool operator==(const NelsonSignal&, const NelsonSignal&) = default;
};

// Signals in order of index, then of rule. A run that goes on signals again at each further value. Limits count as inside.
// In the tests "k of n" the newest value is one of the k. Source: Nelson, J. Quality Technology 16 (1984) 237, as its
// table of eight tests is reprinted. Errors: as control_signals().
Result<std::vector<NelsonSignal>> nelson_signals(const std::vector<double>& values, double target, double sd);

}  // namespace prillbook
