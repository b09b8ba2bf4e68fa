// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <string>
#include <vector>

#include "core/assay/compare_draws.h"
#include "core/base/number.h"

namespace prillbook::summary {

// What the draws say of gap and recovery, whether the first order holds, and how to draw the same again.
std::vector<std::string> draw_words(const DrawnComparison& drawn, DecimalMark mark);

}  // namespace prillbook::summary
