// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <string>
#include <string_view>

namespace prillbook {

// Well-formed UTF-8 without NUL (RFC 3629: no surrogates, no overlong forms, at most U+10FFFF).
bool is_utf8(std::string_view text);

std::string lower_ascii(std::string_view text);

}  // namespace prillbook
