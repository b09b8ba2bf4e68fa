// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/upkeep/mended_head.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cstdint>
#include <filesystem>
#include <fstream>

#include "core/store/backup.h"
#include "core/store/connection.h"
#include "core/upkeep/salvage_read.h"

namespace prillbook::upkeep {
namespace {

namespace fs = std::filesystem;

// "Database File Format", section 1.3, of SQLite: what stands where in the head of every notebook.
constexpr std::size_t head_bytes = 100, page_bytes = 4096;
using Head = std::array<unsigned char, head_bytes>;

struct Fixed {
  std::size_t at;
  std::array<unsigned char, 4> bytes;
  std::size_t count;
};
constexpr Fixed fixed[] = {
    {0, {'S', 'Q', 'L', 'i'}, 4},
    {4, {'t', 'e', ' ', 'f'}, 4},
    {8, {'o', 'r', 'm', 'a'}, 4},
    {12, {'t', ' ', '3', 0}, 4},
    {16, {page_bytes >> 8, page_bytes & 0xFF}, 2},
    {18, {1, 1, 0}, 3},     // written with a rollback journal; no bytes kept free at the end of a page
    {21, {64, 32, 32}, 3},  // payload fractions
    {44, {0, 0, 0, 4}, 4},  // schema format
    {52, {0, 0, 0, 0}, 4},  // no automatic vacuum
    {56, {0, 0, 0, 1}, 4},  // UTF-8
    {64, {0, 0, 0, 0}, 4},
    {68,
     {store::application_id >> 24 & 0xFF, store::application_id >> 16 & 0xFF, store::application_id >> 8 & 0xFF,
      store::application_id & 0xFF},
     4},
};
constexpr std::size_t pages_at = 28, changes_at = 24, valid_for_at = 92, version_at = 60;

std::uint32_t number_at(const Head& head, std::size_t at) {
  std::uint32_t number = 0;
  for (std::size_t i = 0; i < 4; ++i) number = number << 8 | head[at + i];
  return number;
}

bool put(Head& head, std::size_t at, std::uint32_t number) {
  const bool changed = number_at(head, at) != number;
  for (std::size_t i = 0; i < 4; ++i) head[at + i] = static_cast<unsigned char>(number >> (24 - 8 * i));
  return changed;
}

bool mend(Head& head, std::uint32_t pages) {
  bool changed = false;
  for (const Fixed& part : fixed)
    for (std::size_t i = 0; i < part.count; ++i) {
      changed |= head[part.at + i] != part.bytes[i];
      head[part.at + i] = part.bytes[i];
    }
  // The number of pages counts only where the two counters of changes agree.
  changed |= put(head, pages_at, pages);
  changed |= put(head, valid_for_at, number_at(head, changes_at));
  const std::uint32_t version = number_at(head, version_at);
  if (version < 1 || version > std::uint32_t(store::Connection::newest_version()))
    changed |= put(head, version_at, std::uint32_t(store::Connection::newest_version()));
  return changed;
}

}  // namespace

Result<int> mend_head(const std::string& from, const std::string& to, Salvaged& report) {
  std::error_code code;
  const auto size = fs::file_size(from, code);
  if (code) return Error{ErrorCode::not_found, "", fmt::format("{}: there is no such file", from), {from}};
  if (size < page_bytes) return Error{ErrorCode::not_a_notebook, "", fmt::format("{}: the file is no notebook", from), {from}};
  store::discard(to);
  fs::copy_file(from, to, code);
  if (code) {
    store::discard(to);
    return Error{code == std::errc::permission_denied ? ErrorCode::read_only : ErrorCode::disk_full,
                 "",
                 fmt::format("{}: {}", to, code.message()),
                 {to}};
  }
  // An interrupted entry is taken back from the copy as it would be from the notebook.
  fs::copy_file(from + "-journal", to + "-journal", code);
  if (!code) (void)store::Connection::open(to, store::Access::read_write);
  std::fstream file(to, std::ios::binary | std::ios::in | std::ios::out);
  Head head{};
  file.read(reinterpret_cast<char*>(head.data()), head_bytes);
  if (mend(head, std::uint32_t(fs::file_size(to, code) / page_bytes))) tell(report, "file", "its head was damaged");
  file.seekp(0);
  file.write(reinterpret_cast<const char*>(head.data()), head_bytes);
  file.close();
  if (!file) return Error{ErrorCode::disk_full, "", fmt::format("{}: the file can not be written", to), {to}};
  return int(number_at(head, version_at));
}

}  // namespace prillbook::upkeep
