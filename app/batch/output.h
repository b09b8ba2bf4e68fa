// SPDX-License-Identifier: GPL-3.0-or-later
// Last checks on what a verb hands out.
#pragma once

#include "app/batch/calc.h"

namespace prillbook::batch {

// The object itself. Errors: not_finite with the path of the first number that is not finite, since JSON has no
// spelling for it and figures at the edge of a double can overflow inside a formula.
Result<Json> all_finite(Json value);

}  // namespace prillbook::batch
