// SPDX-License-Identifier: GPL-3.0-or-later
// Two machines wrote to one notebook in a folder that is kept alike between them: whatever keeps it alike leaves one of
// the two files beside the other, under a name of its own.
#pragma once

#include <cstdint>
#include <string>
#include <vector>

namespace prillbook::upkeep {

struct ConflictCopy {
  std::string path;
  std::int64_t gestures = 0;  // that only this file has

  friend bool operator==(const ConflictCopy&, const ConflictCopy&) = default;
};

// Files beside the notebook whose names begin like its own, that are the same notebook by their first entry, and that
// hold entries which it lacks. Copies that the program makes are none. By content, since every program names them its
// own way; nothing is changed.
std::vector<ConflictCopy> conflict_copies(const std::string& notebook);

}  // namespace prillbook::upkeep
