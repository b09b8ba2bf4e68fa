// SPDX-License-Identifier: GPL-3.0-or-later
// Writes notebooks of any size: lab weeks with clients, consignments, samples, portions, pan tests, charges, beads and
// weighings. All of it invented; the same seed gives the same notebook, byte for byte of its dump.
#pragma once

#include <cstdint>

#include "core/base/clock.h"
#include "core/base/progress.h"
#include "core/base/result.h"
#include "core/history/journal.h"

namespace prillbook::testing_support {

struct GeneratorOptions {
  long samples = 100;
  std::uint64_t seed = 1;
  // How many consignments share one gesture: 1 is what a lab does, more is quicker to write.
  int consignments_a_gesture = 1;
  Progress progress = {};  // samples
};

// `clock` is the one of `journal`; the notebook is expected to be empty.
Result<void> generate(history::Journal& journal, SteppingClock& clock, const GeneratorOptions& options);

}  // namespace prillbook::testing_support
