// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/base/text.h"

#include <algorithm>
#include <cstdint>

namespace prillbook {
namespace {

// Length of the well-formed sequence at the start of `text`; 0 where there is none.
std::size_t sequence_length(std::string_view text) {
  const auto byte = [&](std::size_t i) { return static_cast<unsigned char>(text[i]); };
  const unsigned char first = byte(0);
  if (first < 0x80) return first == 0 ? 0 : 1;
  const std::size_t length = first >= 0xF0 ? 4 : first >= 0xE0 ? 3 : 2;
  if (first < 0xC2 || first > 0xF4 || text.size() < length) return 0;
  std::uint32_t point = first & (0xFF >> (length + 1));
  for (std::size_t i = 1; i < length; ++i) {
    if ((byte(i) & 0xC0) != 0x80) return 0;
    point = (point << 6) | (byte(i) & 0x3F);
  }
  const bool overlong = (length == 3 && point < 0x800) || (length == 4 && point < 0x10000);
  const bool surrogate = point >= 0xD800 && point <= 0xDFFF;
  return overlong || surrogate || point > 0x10FFFF ? 0 : length;
}

}  // namespace

bool is_utf8(std::string_view text) {
  while (!text.empty()) {
    const std::size_t length = sequence_length(text);
    if (length == 0) return false;
    text.remove_prefix(length);
  }
  return true;
}

std::string lower_ascii(std::string_view text) {
  std::string result(text);
  std::transform(result.begin(), result.end(), result.begin(),
                 [](char c) { return c >= 'A' && c <= 'Z' ? char(c - 'A' + 'a') : c; });
  return result;
}

bool append_plain_json(std::string& out, std::string_view text) {
  const auto plain = [](char c) { return c >= 0x20 && c < 0x7F; };
  if (!std::all_of(text.begin(), text.end(), plain)) return false;
  out += '"';
  const auto marked = [](char c) { return c == '"' || c == '\\'; };
  for (auto at = text.begin(); at != text.end();) {
    const auto stop = std::find_if(at, text.end(), marked);
    out.append(at, stop);
    if (stop == text.end()) break;
    out.append({'\\', *stop});
    at = stop + 1;
  }
  out += '"';
  return true;
}

}  // namespace prillbook
