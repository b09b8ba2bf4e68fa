// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <optional>

#include "core/readings/reading.h"

namespace prillbook::readings {

// One unit of the last place typed, in the base unit; absent where that can't be told.
std::optional<double> last_place(const Reading& reading);

}  // namespace prillbook::readings
