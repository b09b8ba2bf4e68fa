// SPDX-License-Identifier: GPL-3.0-or-later
// The fineness of a bead by density: weighed in air and hanging in water, both on one balance.
#pragma once

#include "core/assay/density_fineness.h"
#include "core/base/id.h"
#include "core/history/journal.h"
#include "core/readings/entry.h"

namespace prillbook::weighing {

// What stands beside a fineness that was worked out from the two weights.
inline constexpr std::string_view fineness_is_derived = "from its weights in air and in water";

struct InWater {
  readings::Reading in_air, in_water;  // of the whole bead; water at 20 degrees Celsius
  BalanceId balance;
};

// What the two weights give, with the uncertainty of the balance's step. Errors of fineness_by_density, under
// bead.in_air or bead.in_water; missing_key (weighing.balance_id) where the balance has no step.
Result<DensityFineness> fineness_in_water(store::Connection& connection, const InWater& weighed);

// Keeps both weights and what they give: method, fineness, uncertainty. A fineness entered by hand later takes the place of
// all. Errors as above, and those of set_fineness.
Result<void> weigh_in_water(history::Journal& journal, BeadId id, const InWater& weighed);
Result<void> weigh_in_water(history::ChangeSet& set, BeadId id, const InWater& weighed);

}  // namespace prillbook::weighing
