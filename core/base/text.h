// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <string>
#include <string_view>

namespace prillbook {

// Well-formed UTF-8 without NUL (RFC 3629: no surrogates, no overlong forms, at most U+10FFFF).
bool is_utf8(std::string_view text);

std::string lower_ascii(std::string_view text);

// Appends the text as a JSON string (RFC 8259) where it is ASCII without control characters, as nearly all of a notebook
// is; else appends nothing and gives false: the library then has to write it.
bool append_plain_json(std::string& out, std::string_view text);

}  // namespace prillbook
