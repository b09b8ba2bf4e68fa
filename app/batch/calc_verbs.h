// SPDX-License-Identifier: GPL-3.0-or-later
// One function a verb, each in its own file calc_NAME.cpp.
#pragma once

#include "app/batch/calc.h"
#include "app/batch/json_input.h"

namespace prillbook::batch {

Result<Json> calc_convert(JsonInput& input);

}  // namespace prillbook::batch
