// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/base/result.h"
#include "core/units/units.h"

namespace prillbook {

// Silver to add to a bead before parting, so that silver : gold becomes `ratio`; 0 where there is enough.
// Domain: gold >= 0, silver >= 0, ratio > 0. Errors: out_of_range, not_finite. Source: Beringer p. 147.
Result<Mass> silver_to_add(Mass gold, Mass silver, double ratio);

}  // namespace prillbook
