// SPDX-License-Identifier: GPL-3.0-or-later
// Numbers as people type them. Never the C locale: from_chars and to_chars only.
#pragma once

#include <string>
#include <string_view>

#include "core/base/result.h"

namespace prillbook {

enum class DecimalMark { point, comma };

struct TypedNumber {
  double value = 0;
  DecimalMark mark = DecimalMark::point;  // the mark understood
  std::string digits;                     // "-1234.50": plain, with a point, as many digits as were typed
  std::string_view rest;                  // what follows the number, blanks trimmed: the unit
};

// Reads the number at the start of `text`, with a decimal comma or point, an optional sign, blanks or thin blanks
// between groups of three ("1 234,5"), group marks where both marks occur ("1,234.5"), and an exponent ("2e-3").
// A single mark followed by exactly three digits is ambiguous unless it is `preferred` or the whole part is 0:
// "1,234" with a preferred point is refused as ambiguous_mark with both readings as arguments.
// Errors: not_a_number, ambiguous_mark, not_finite.
Result<TypedNumber> parse_number(std::string_view text, DecimalMark preferred);

// Shortest text that reads back to the same double; point as mark. Domain: finite.
std::string shortest(double value);

// Text with exactly `decimals` digits after `mark` (0 to 12), rounded half away from zero on the decimal text.
std::string fixed(double value, int decimals, DecimalMark mark = DecimalMark::point);

std::string_view trimmed(std::string_view text);

}  // namespace prillbook
