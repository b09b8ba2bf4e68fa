// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/batch/files.h"

#include <fmt/format.h>

#include <algorithm>
#include <fstream>
#include <iterator>

namespace prillbook::batch {

Result<std::string> bytes_of_file(const std::string& path) {
  std::ifstream stream(path, std::ios::binary);
  if (!stream) return Error{ErrorCode::not_found, "", fmt::format("{}: the file can not be opened", path), {path}};
  return std::string(std::istreambuf_iterator<char>(stream), {});
}

Result<std::string> passphrase_of(const std::string& path) {
  if (path.empty()) return refusal(ErrorCode::missing_key, "--passphrase-file", "this asks for a passphrase: --passphrase-file");
  PRILLBOOK_ASSIGN(std::string text, bytes_of_file(path));
  text.resize(std::min(text.find_first_of("\r\n"), text.size()));
  return text;
}

}  // namespace prillbook::batch
