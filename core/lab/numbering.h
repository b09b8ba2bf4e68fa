// SPDX-License-Identifier: GPL-3.0-or-later
// Running numbers by pattern: "{yy}-{nnnn}" gives 26-0001, 26-0002 … and begins again each year.
#pragma once

#include <string>
#include <string_view>

#include "core/base/clock.h"

namespace prillbook::lab {

// A pattern holds exactly one run of n in braces, at the end, and at most one {yy} or {yyyy}.
bool is_number_pattern(std::string_view pattern);

// What stands before the running number at this time: "26-". Domain: is_number_pattern.
std::string number_prefix(std::string_view pattern, const Instant& at);

// The numbers of a pattern at one time: what stands before the running number, and how many digits it has at least.
struct NumberSeries {
  std::string prefix;
  std::size_t width = 0;
};
NumberSeries number_series(std::string_view pattern, const Instant& at);

// The number after `last`, or the first one. `last` is the greatest number with this prefix, empty where there is none;
// a number past the width of the pattern grows a digit.
std::string next_number(const NumberSeries& series, std::string_view last);
std::string next_number(std::string_view pattern, const Instant& at, std::string_view last);

}  // namespace prillbook::lab
