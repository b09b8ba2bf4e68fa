// SPDX-License-Identifier: GPL-3.0-or-later
// The gold that fire found, split into where it is known to be.
#pragma once

#include <optional>

#include "core/results/sample_result.h"

namespace prillbook::results {

// In g/t of the dry portion panned. Common practice, no source: the masses of docs/methods-pan.md over the portion.
struct GapSplit {
  Grade pan;                             // caught as free gold
  std::optional<Grade> remainder, tail;  // found in what the pan left; absent where it was not assayed
  Grade unexplained;                     // fire less all of these; below 0: more was found than fire says
  Grade fire;
};

// Of the leading pan test; nullopt without a comparison or a mass.
std::optional<GapSplit> gap_split(const SampleResult& result);

}  // namespace prillbook::results
