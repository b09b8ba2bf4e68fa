// SPDX-License-Identifier: GPL-3.0-or-later
// One day at the lab, gesture by gesture, each with a time of its own: after n gestures the notebook is always the same.
#pragma once

#include <functional>
#include <vector>

#include "core/base/clock.h"
#include "core/base/result.h"
#include "core/history/journal.h"

namespace prillbook::testing_support {

using Gesture = std::function<Result<void>(history::Journal&)>;

// Receiving, cutting, a pan test, a charge, beads, weighings, a correction with its reason, and one thing taken back and
// put back. Ids are known, since every gesture is written once and in this order.
std::vector<Gesture> lab_day();

// Does the `number`-th gesture (from 0) at its own time of day.
Result<void> do_gesture(history::Journal& journal, SteppingClock& clock, const std::vector<Gesture>& day, std::size_t number);

}  // namespace prillbook::testing_support
