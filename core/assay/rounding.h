// SPDX-License-Identifier: GPL-3.0-or-later
// Figures for people: no more digits than the uncertainty and the balance have earned.
// Rule: the uncertainty keeps two digits where its first is 1 or 2, otherwise one; the value ends at the same place.
// Without an uncertainty the last place is the smallest power of ten not below one balance step.
#pragma once

#include <optional>
#include <string>

#include "core/base/number.h"

namespace prillbook {

// Decimals after the mark; below 0: tens, hundreds. Domain: finite and > 0.
int decimals_for_uncertainty(double uncertainty);
int decimals_for_step(double step);

// `value` with `decimals` as above: rounded(15180, -2) is "15200". Domain: finite; decimals at most 12.
std::string rounded(double value, int decimals, DecimalMark mark = DecimalMark::point);

// "16.5 ± 0.9" from a value and its half width at 95 %; where `step` is coarser than the rule it sets the last place.
// Without both at most six digits that count: what a double drags behind them says nothing.
std::string written(double value, std::optional<double> half_width, std::optional<double> step = {},
                    DecimalMark mark = DecimalMark::point);

}  // namespace prillbook
