// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <optional>

#include "core/weighing/bead.h"

namespace prillbook::results {

// Silver to gold that is wanted before parting. Source: Beringer p. 147.
inline constexpr double quartation = 3;

// What a bead holds before it goes into the acid, or held.
struct PartingPlan {
  double ratio = 0;                   // of silver to gold, with the inquart silver that is written down
  std::optional<Mass> silver_to_add;  // for quartation; absent once the gold was weighed
};

// Of a bead that was weighed, or of all that were melted together with it: the gold is that left after parting, else by the
// fineness that was got another way. nullopt where neither is known or there is no gold. Errors: as silver_to_add.
Result<std::optional<PartingPlan>> parting_plan(const weighing::Bead& bead);

}  // namespace prillbook::results
