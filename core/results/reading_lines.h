// SPDX-License-Identifier: GPL-3.0-or-later
// Every figure that a sample's results rest on, as it was read.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "core/base/clock.h"

namespace prillbook::results {

struct SampleRecord;

// One figure as it was read.
struct ReadingLine {
  std::string sample, test, what, typed;
  std::optional<double> value;  // in `unit`; absent where none was seen
  std::string unit;             // g, ‰, µm, %
  bool below = false;           // the value is an upper limit
  std::optional<double> step_g;
  std::string balance, who, left_out;
  std::optional<Instant> when;
};

// Masses of the sample and its portions, weighings, fineness, what went into the crucible, what lay on the sieves.
std::vector<ReadingLine> reading_lines(const SampleRecord& record);

}  // namespace prillbook::results
