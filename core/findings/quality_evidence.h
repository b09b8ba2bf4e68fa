// SPDX-License-Identifier: GPL-3.0-or-later
// What the findings of quality share.
#pragma once

#include <functional>

#include "core/findings/finding.h"

namespace prillbook::findings {

// One finding about the loads that nobody has decided on and that have controls for which `wanted` says so; `seen` names
// them all. nullopt where there is none.
std::optional<Finding> undecided_controls(const Scene& scene, const char* rule,
                                          const std::function<bool(const results::ControlResult&)>& wanted);

// "quartz, rock blank 26-0014/2"
std::string control_in_words(const results::ControlResult& control);

// A signal that rejects the value alone, not a run of values.
bool speaks_of_one_value(const results::ChartSignal& signal);

}  // namespace prillbook::findings
