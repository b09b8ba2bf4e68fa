// SPDX-License-Identifier: GPL-3.0-or-later
// How well a portion stands for its sample, from what the notebook knows.
#pragma once

#include <optional>
#include <vector>

#include "core/preparation/gy.h"
#include "core/preparation/splitting.h"
#include "core/results/machine_risk.h"

namespace prillbook::results {

// The largest colour that a pan test of the sample measured.
std::optional<Opening> largest_colour(const SampleRecord& record);

// Grade, size of gold, top size and mass of a portion and of what it was cut from; nullopt where no step says the top
// size, or the portion was not weighed. The size of gold is the largest colour, else the lab's setting; the exponent of Gy's
// formula is the lab's.
std::optional<GyInput> sampling_input(const SampleRecord& record, const SampleResult& result, const portions::Portion& portion);

// The top size of the rock that a portion (none: the sample itself) holds now; nullopt where no step says.
std::optional<Opening> top_size_now(const SampleRecord& record, PortionId holder);

// The way down to a portion: one stage for it and for each portion above it that has a top size and masses.
std::vector<SplitStage> stages_to(const SampleRecord& record, const portions::Portion& portion);

}  // namespace prillbook::results
