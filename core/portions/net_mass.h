// SPDX-License-Identifier: GPL-3.0-or-later
// Bag and rock on the counter scale: gross less tare is the net mass of a sample.
#pragma once

#include <optional>

#include "core/base/id.h"
#include "core/history/journal.h"
#include "core/readings/entry.h"
#include "core/units/quantity.h"

namespace prillbook::portions {

// What stands beside a received mass that was not weighed but worked out.
inline constexpr std::string_view net_is_derived = "gross less tare";

// gross - tare, above 0; absent where one of them is. Errors: inconsistent where the bag weighs as much as the whole.
Result<std::optional<Mass>> net_mass(const readings::Figure& gross, const readings::Figure& tare);

// Writes both; where the received mass is absent or was worked out before, it becomes gross less tare. One that was
// weighed stays as it is. Errors: inconsistent (tare not below gross), overdrawn where portions cut weigh more than the
// new net mass.
Result<void> set_gross_and_tare(history::Journal& journal, SampleId id, const readings::Figure& gross,
                                const readings::Figure& tare, const std::optional<std::string>& why = std::nullopt);
Result<void> set_gross_and_tare(history::ChangeSet& set, SampleId id, const readings::Figure& gross,
                                const readings::Figure& tare);

}  // namespace prillbook::portions
