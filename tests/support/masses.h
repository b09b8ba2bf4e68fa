// SPDX-License-Identifier: GPL-3.0-or-later
// Masses as a test writes them: g(30), mg(0.022).
#pragma once

#include "core/units/units.h"

namespace prillbook {

inline Mass g(double value) { return {value, unit::gram}; }
inline Mass mg(double value) { return {value, unit::milligram}; }

}  // namespace prillbook
