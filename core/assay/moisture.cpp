// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/assay/moisture.h"

#include <cmath>

namespace prillbook {

Result<Moisture> moisture(Mass wet, Mass dry) {
  if (!(wet > Mass())) return Error{ErrorCode::out_of_range, "wet_g", "the wet mass is above 0", {}};
  if (!(dry > Mass())) return Error{ErrorCode::out_of_range, "dry_g", "the dry mass is above 0", {}};
  if (dry > wet) return Error{ErrorCode::inconsistent, "dry_g", "the dry mass is above the wet mass", {}};
  const Moisture result{Share(100 * ((wet - dry) / wet), unit::percent), Share(100 * ((wet - dry) / dry), unit::percent)};
  if (!std::isfinite(result.dry_basis.in(unit::percent)))
    return Error{ErrorCode::not_finite, "dry_g", "the moisture on dry basis is not finite", {}};
  return result;
}

}  // namespace prillbook
