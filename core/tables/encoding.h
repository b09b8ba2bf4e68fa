// SPDX-License-Identifier: GPL-3.0-or-later
// Which bytes stand for which letters in a file that came from somewhere: found from the bytes, and said.
#pragma once

#include <array>
#include <optional>
#include <string>
#include <string_view>

#include "core/base/result.h"

namespace prillbook::tables {

enum class Encoding { utf8, utf16_le, utf16_be, windows_1252 };
inline constexpr std::array encodings{Encoding::utf8, Encoding::utf16_le, Encoding::utf16_be, Encoding::windows_1252};

std::string_view encoding_name(Encoding encoding);  // "utf-8", "utf-16le", "utf-16be", "windows-1252"
std::optional<Encoding> encoding_by_name(std::string_view name);

// No list of samples comes near it; what is larger is another kind of file.
inline constexpr std::size_t largest_file = 32u << 20;

// Stands where bytes mean no letter in the encoding (U+FFFD); a cell that holds it has to be looked at.
inline constexpr std::string_view unreadable = "\xEF\xBF\xBD";

struct Decoded {
  std::string text;  // UTF-8 without a byte order mark
  Encoding encoding = Encoding::utf8;
};

// Takes `as` where it is given. Else: a byte order mark; bytes that are well-formed UTF-8; zero bytes in every second
// place (UTF-16); what is left is Windows-1252, the usual encoding of spreadsheets that write no UTF-8.
// Errors: out_of_range above largest_file (field "file_size"); inconsistent where the text holds NUL (field "nul",
// argument: the line).
Result<Decoded> decode(std::string_view bytes, std::optional<Encoding> as = std::nullopt);

// The letter of a byte in Windows-1252; 0 for the five bytes that have none.
// Source: CP1252.TXT of the Unicode Consortium, table version 2.01.
char32_t letter_of_windows_1252(unsigned char byte);

}  // namespace prillbook::tables
