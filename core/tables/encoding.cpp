// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/tables/encoding.h"

#include <fmt/format.h>

#include <algorithm>

#include "core/base/text.h"

namespace prillbook::tables {
namespace {

constexpr char32_t no_letter = 0xFFFD;
constexpr std::size_t bytes_looked_at = 4096;

// 0x80 to 0x9F; the rest stands one to one.
constexpr std::array<char32_t, 32> upper_block{
    0x20AC, 0,      0x201A, 0x0192, 0x201E, 0x2026, 0x2020, 0x2021, 0x02C6, 0x2030, 0x0160, 0x2039, 0x0152, 0, 0x017D, 0,
    0,      0x2018, 0x2019, 0x201C, 0x201D, 0x2022, 0x2013, 0x2014, 0x02DC, 0x2122, 0x0161, 0x203A, 0x0153, 0, 0x017E, 0x0178};

void append(std::string& text, char32_t letter) {
  const auto put = [&](char32_t byte) { text += static_cast<char>(byte); };
  if (letter < 0x80) return put(letter);
  if (letter < 0x800) {
    put(0xC0 | (letter >> 6));
  } else {
    if (letter < 0x10000) {
      put(0xE0 | (letter >> 12));
    } else {
      put(0xF0 | (letter >> 18));
      put(0x80 | ((letter >> 12) & 0x3F));
    }
    put(0x80 | ((letter >> 6) & 0x3F));
  }
  put(0x80 | (letter & 0x3F));
}

std::string from_windows_1252(std::string_view bytes) {
  std::string text;
  text.reserve(bytes.size() + bytes.size() / 8);
  for (const char c : bytes) {
    const auto byte = static_cast<unsigned char>(c);
    const char32_t letter = letter_of_windows_1252(byte);
    append(text, letter == 0 && byte != 0 ? no_letter : letter);
  }
  return text;
}

// Surrogates without their other half and a byte left over at the end are no letters.
std::string from_utf16(std::string_view bytes, bool little) {
  std::string text;
  text.reserve(bytes.size());
  const auto unit = [&](std::size_t at) {
    const auto first = static_cast<unsigned char>(bytes[at]), second = static_cast<unsigned char>(bytes[at + 1]);
    return static_cast<char32_t>(little ? first | second << 8 : first << 8 | second);
  };
  std::size_t at = 0;
  for (; at + 1 < bytes.size(); at += 2) {
    char32_t letter = unit(at);
    if (letter >= 0xD800 && letter < 0xE000) {
      const bool high = letter < 0xDC00 && at + 3 < bytes.size();
      const char32_t low = high ? unit(at + 2) : 0;
      if (low >= 0xDC00 && low < 0xE000) {
        letter = 0x10000 + ((letter - 0xD800) << 10) + (low - 0xDC00);
        at += 2;
      } else {
        letter = no_letter;
      }
    }
    append(text, letter);
  }
  if (at < bytes.size()) text += unreadable;
  return text;
}

// Every byte that belongs to no well-formed sequence becomes one unreadable letter.
std::string from_utf8(std::string_view bytes) {
  std::string text;
  text.reserve(bytes.size());
  while (!bytes.empty()) {
    std::size_t length = 1;
    if (const auto first = static_cast<unsigned char>(bytes.front()); first >= 0xC2)
      length = first >= 0xF0 ? 4 : first >= 0xE0 ? 3 : 2;
    const std::string_view sequence = bytes.substr(0, length);
    const bool whole = sequence.size() == length && (sequence == std::string_view("\0", 1) || is_utf8(sequence));
    text += whole ? sequence : unreadable;
    bytes.remove_prefix(whole ? length : 1);
  }
  return text;
}

// Latin text in UTF-16 has a zero in almost every second place and none between.
std::optional<Encoding> utf16_by_zeros(std::string_view bytes) {
  const std::string_view start = bytes.substr(0, bytes_looked_at);
  std::array<std::size_t, 2> zeros{};
  for (std::size_t i = 0; i < start.size(); ++i)
    if (start[i] == '\0') ++zeros[i % 2];
  const std::size_t pairs = start.size() / 2;
  if (pairs < 2 || (zeros[0] > 0 && zeros[1] > 0)) return std::nullopt;
  if (zeros[1] * 10 >= pairs * 7) return Encoding::utf16_le;
  if (zeros[0] * 10 >= pairs * 7) return Encoding::utf16_be;
  return std::nullopt;
}

bool is_utf8_with_nul(std::string_view bytes) {
  while (true) {
    const std::size_t nul = bytes.find('\0');
    if (!is_utf8(bytes.substr(0, nul))) return false;
    if (nul == std::string_view::npos) return true;
    bytes.remove_prefix(nul + 1);
  }
}

struct Mark {
  std::string_view bytes;
  Encoding encoding;
};
constexpr std::array marks{Mark{"\xEF\xBB\xBF", Encoding::utf8}, Mark{"\xFF\xFE", Encoding::utf16_le},
                           Mark{"\xFE\xFF", Encoding::utf16_be}};

Encoding found_in(std::string_view bytes) {
  for (const Mark& mark : marks)
    if (bytes.starts_with(mark.bytes)) return mark.encoding;
  if (const auto wide = utf16_by_zeros(bytes)) return *wide;
  return is_utf8_with_nul(bytes) ? Encoding::utf8 : Encoding::windows_1252;
}

}  // namespace

std::string_view encoding_name(Encoding encoding) {
  switch (encoding) {
    case Encoding::utf8: return "utf-8";
    case Encoding::utf16_le: return "utf-16le";
    case Encoding::utf16_be: return "utf-16be";
    case Encoding::windows_1252: return "windows-1252";
  }
  return "";
}

std::optional<Encoding> encoding_by_name(std::string_view name) {
  const std::string wanted = lower_ascii(name);
  for (const Encoding encoding : encodings)
    if (encoding_name(encoding) == wanted) return encoding;
  return std::nullopt;
}

char32_t letter_of_windows_1252(unsigned char byte) { return byte >= 0x80 && byte < 0xA0 ? upper_block[byte - 0x80u] : byte; }

Result<Decoded> decode(std::string_view bytes, std::optional<Encoding> as) {
  if (bytes.size() > largest_file)
    return Error{ErrorCode::out_of_range,
                 "file_size",
                 fmt::format("the file has {} bytes; a list has at most {}", bytes.size(), largest_file),
                 {std::to_string(bytes.size()), std::to_string(largest_file)}};
  Decoded decoded{{}, as.value_or(found_in(bytes))};
  for (const Mark& mark : marks)
    if (mark.encoding == decoded.encoding && bytes.starts_with(mark.bytes)) {
      bytes.remove_prefix(mark.bytes.size());
      break;
    }
  switch (decoded.encoding) {
    case Encoding::utf8: decoded.text = is_utf8(bytes) ? std::string(bytes) : from_utf8(bytes); break;
    case Encoding::utf16_le: decoded.text = from_utf16(bytes, true); break;
    case Encoding::utf16_be: decoded.text = from_utf16(bytes, false); break;
    case Encoding::windows_1252: decoded.text = from_windows_1252(bytes); break;
  }
  if (const std::size_t nul = decoded.text.find('\0'); nul != std::string::npos) {
    const auto line = 1 + std::count(decoded.text.begin(), decoded.text.begin() + std::ptrdiff_t(nul), '\n');
    return Error{ErrorCode::inconsistent,
                 "nul",
                 fmt::format("line {} holds a zero byte; this is no list, or one in another encoding", line),
                 {std::to_string(line)}};
  }
  return decoded;
}

}  // namespace prillbook::tables
