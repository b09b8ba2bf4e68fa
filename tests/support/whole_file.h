// SPDX-License-Identifier: GPL-3.0-or-later
// Whether a file that the program wrote is there to its last byte, by what its kind ends with.
#pragma once

#include <nlohmann/json.hpp>
#include <string>
#include <string_view>

#include "tests/support/files.h"

namespace prillbook::testing_support {

inline bool is_whole_file(const std::string& path) {
  constexpr std::size_t zip_end_size = 22;  // end of central directory without a comment: APPNOTE.TXT of the zip format, 4.3.16
  const std::string text = file_text(path);
  if (path.ends_with(".pdf"))
    return text.starts_with("%PDF-") && std::string_view(text).substr(0, text.find_last_not_of("\r\n ") + 1).ends_with("%%EOF");
  if (path.ends_with(".xlsx")) return text.size() > zip_end_size && text.substr(text.size() - zip_end_size, 4) == "PK\5\6";
  // PNG ends with the chunk IEND, its length before it and its checksum after it: ISO/IEC 15948, 11.2.5.
  if (path.ends_with(".png")) return text.size() > 12 && text.substr(text.size() - 8, 4) == "IEND";
  if (path.ends_with(".json") || path.ends_with(".prillkey")) return nlohmann::json::accept(text);
  return path.ends_with(".csv") && text.ends_with("\n");
}

}  // namespace prillbook::testing_support
