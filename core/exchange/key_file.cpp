// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/exchange/key_file.h"

#include <fmt/format.h>

#include <cerrno>
#include <filesystem>
#include <fstream>
#include <iterator>

#include "core/store/part_file.h"

namespace prillbook::exchange {
namespace {

constexpr std::uintmax_t largest_key_file = 64 * 1024;  // bytes; ours has a few hundred

}  // namespace

Result<std::string> make_key_file(const std::string& path, std::string_view passphrase) {
  std::error_code code;
  if (std::filesystem::exists(path, code))
    return Error{
        ErrorCode::already_exists, "FILE", fmt::format("{} is there already: a key is never written over", path), {path}};
  PRILLBOOK_ASSIGN(const issue::LabKey key, issue::new_key());
  PRILLBOOK_ASSIGN(const std::string text, issue::sealed(key, passphrase));
  PRILLBOOK_TRY(store::write_whole(path, text));
  std::filesystem::permissions(path, std::filesystem::perms::owner_read | std::filesystem::perms::owner_write, code);
  return key.public_hex();
}

Result<issue::LabKey> open_key_file(const std::string& path, std::string_view passphrase) {
  std::error_code code;
  const std::uintmax_t size = std::filesystem::file_size(path, code);
  if (code) return store::file_fault(code.value(), path);
  if (size > largest_key_file) return Error{ErrorCode::out_of_range, "FILE", path + " is no key file", {path}};
  std::ifstream file(path, std::ios::binary);
  if (!file) return store::file_fault(EACCES, path);
  const std::string text{std::istreambuf_iterator<char>(file), {}};
  return issue::unsealed(text, passphrase);
}

}  // namespace prillbook::exchange
