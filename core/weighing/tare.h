// SPDX-License-Identifier: GPL-3.0-or-later
// A bead weighed in its cup: gross less tare is what the bead weighs.
#pragma once

#include <string_view>

#include "core/readings/reading.h"

namespace prillbook::weighing {

// What stands beside a mass that was worked out and not read off.
inline constexpr std::string_view net_is_derived = "gross less tare";

// In mg, with the decimals of the finer of the two, on the balance and with the step of the gross reading. Domain: both masses
// that were measured. Errors: inconsistent where the empty cup weighs as much as the full one; out_of_range where one of them was
// not measured ("none", "<0.01 mg").
Result<readings::Reading> net_of(const readings::Reading& gross, const readings::Reading& tare);

}  // namespace prillbook::weighing
