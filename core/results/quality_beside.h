// SPDX-License-Identifier: GPL-3.0-or-later
// The quality work that stands beside the tests of one sample.
#pragma once

#include <vector>

#include "core/controls/insertion.h"
#include "core/results/run_controls.h"

namespace prillbook::results {

// How long ago the last controls were when a charge was made up.
struct ChargeSince {
  ChargeId charge;
  std::string label;
  std::vector<controls::Since> since;
};

struct QualityBeside {
  std::vector<RunControls> runs;     // the loads its charges went through that have controls or a decision
  std::vector<DuplicatePair> pairs;  // that one of its tests is part of
  std::vector<ChargeSince> since;    // ordinary charges that are not spoiled
};

// Of the stock of a control material: nothing. Errors: damaged.
Result<QualityBeside> quality_beside(store::Connection& connection, const SampleRecord& record);

}  // namespace prillbook::results
