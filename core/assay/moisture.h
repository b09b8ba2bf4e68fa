// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/base/result.h"
#include "core/units/units.h"

namespace prillbook {

struct Moisture {
  Share wet_basis;  // water / wet mass
  Share dry_basis;  // water / dry mass
};

// Domain: wet > 0, dry > 0. Errors: out_of_range, inconsistent (dry_g above wet_g), not_finite.
Result<Moisture> moisture(Mass wet, Mass dry);

}  // namespace prillbook
