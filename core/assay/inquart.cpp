// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/assay/inquart.h"

#include <algorithm>
#include <cmath>

namespace prillbook {

Result<Mass> silver_to_add(Mass gold, Mass silver, double ratio) {
  if (!(gold >= Mass())) return Error{ErrorCode::out_of_range, "gold_mg", "a mass is not below 0", {}};
  if (!(silver >= Mass())) return Error{ErrorCode::out_of_range, "silver_mg", "a mass is not below 0", {}};
  if (!(ratio > 0)) return Error{ErrorCode::out_of_range, "ratio", "the ratio is above 0", {}};
  const Mass wanted = gold * ratio - silver;
  if (!std::isfinite(wanted.in(unit::milligram)))
    return Error{ErrorCode::not_finite, "ratio", "the silver to add is not finite", {}};
  return std::max(wanted, Mass());
}

}  // namespace prillbook
