// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/upkeep/conflict.h"

#include <algorithm>
#include <filesystem>

#include "core/upkeep/copies.h"
#include "core/upkeep/difference.h"

namespace prillbook::upkeep {
namespace {

namespace fs = std::filesystem;

bool is_our_own(const std::string& file, const std::vector<Copy>& copies) {
  return std::any_of(copies.begin(), copies.end(), [&](const Copy& copy) { return copy.path == file; });
}

// What only the other file has; 0 where it is none of this notebook.
std::int64_t gestures_only_in(store::Connection& notebook, const std::string& file) {
  const auto other = store::Connection::open(file, store::Access::read_only);
  if (!other) return 0;
  const auto parts = difference(notebook, **other, 0);
  return parts && parts->shared_entries > 0 ? parts->only_in_copy.gestures : 0;
}

}  // namespace

std::vector<ConflictCopy> conflict_copies(const std::string& notebook) {
  std::vector<ConflictCopy> found;
  const auto here = store::Connection::open(notebook, store::Access::read_only);
  if (!here) return found;
  const fs::path path(notebook);
  const fs::path folder = path.parent_path().empty() ? fs::path(".") : path.parent_path();
  const std::vector<Copy> copies = copies_in(folder.string(), notebook);
  std::error_code code;
  for (fs::directory_iterator entry(folder, code), end; !code && entry != end; entry.increment(code)) {
    const std::string file = entry->path().string();
    std::error_code ignored;
    if (!entry->path().filename().string().starts_with(path.stem().string()) || entry->path().filename() == path.filename() ||
        !entry->is_regular_file(ignored) || is_our_own(file, copies))
      continue;
    if (const std::int64_t gestures = gestures_only_in(**here, file); gestures > 0) found.push_back({file, gestures});
  }
  std::sort(found.begin(), found.end(), [](const ConflictCopy& a, const ConflictCopy& b) { return a.path < b.path; });
  return found;
}

}  // namespace prillbook::upkeep
