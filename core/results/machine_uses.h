// SPDX-License-Identifier: GPL-3.0-or-later
// What each use of a machine is thought to have taken up from the rock before it.
#pragma once

#include <string>
#include <vector>

#include "core/results/machine_risk.h"

namespace prillbook::results {

struct MachineUse {
  milling::Step step;
  std::string number;   // of its sample
  bool judged = false;  // false: no cleaning was logged by then, nothing of another sample before it, or no hold-up
  LikelyGrade own;
  CarryOverResult carried;
  double pct = 0;  // of its own grade, or of the floor
  bool above = false;
};

// The last `most` uses, oldest first, followed as in machine_state().
Result<std::vector<MachineUse>> machine_uses(store::Connection& connection, MachineId machine, std::size_t most);

}  // namespace prillbook::results
