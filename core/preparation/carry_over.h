// SPDX-License-Identifier: GPL-3.0-or-later
// What a machine that was not clean adds to the next sample.
#pragma once

#include <optional>
#include <vector>

#include "core/base/result.h"
#include "core/units/units.h"

namespace prillbook {

struct CarryOverInput {
  Mass sample;                // > 0
  Grade previous;             // >= 0: of what went through before
  Grade own;                  // >= 0: true grade of the sample
  Mass holdup;                // >= 0: what stays in the machine
  std::vector<Mass> flushes;  // > 0 each: barren rock put through in between, in order
};

struct CarryOverResult {
  Grade apparent;
  Grade carryover;                      // apparent - own; below 0 where the machine held poorer rock
  std::optional<double> carryover_pct;  // foreign metal in per cent of all metal; absent where there is no metal at all
};

// Full mixing with the hold-up, for each barren flush and then for the sample:
// apparent = (own × sample + held × hold-up)/(sample + hold-up). Common practice, no source for the full mixing.
// Errors: out_of_range.
Result<CarryOverResult> mix_carryover(const CarryOverInput& input);

}  // namespace prillbook
