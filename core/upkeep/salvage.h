// SPDX-License-Identifier: GPL-3.0-or-later
// What still reads of a damaged notebook, in a new one that passes the whole check; and a list of what does not.
//
// The history and the tables each say what the records hold, so that one mends the other. An entry whose hash does not
// fit is not believed; what it may have said is then taken from the table, with a gesture of its own, "salvage". Where no
// entry is lost the history is believed against the table, since only the history has hashes.
#pragma once

#include <cstdint>
#include <string>
#include <vector>

#include "core/base/clock.h"
#include "core/base/progress.h"
#include "core/base/result.h"
#include "core/store/structure.h"

namespace prillbook::upkeep {

struct Salvaged {
  std::int64_t entries = 0;       // of the history, kept as they were written
  std::int64_t lost_entries = 0;  // known to have been there
  std::int64_t records = 0;
  std::int64_t lost_records = 0;
  std::vector<store::Fault> left;  // what was lost or settled, in the order of finding; at most `most_told` are kept
  std::int64_t told = 0;           // all of them

  static constexpr std::size_t most_told = 1000;
  bool whole() const { return told == 0; }  // everything was there
};

struct SalvageOptions {
  Instant now;  // of the gesture "salvage"
  const Cancellation* cancellation = nullptr;
};

// "lab.prillbook": "lab.salvaged-2026-05-04-093015.prillbook" beside it.
std::string salvaged_name(const std::string& notebook, const Instant& now);

// Reads `path`, which is left as it is, and makes the notebook `to`, which must not be there. Works in memory: a few times
// the size of the file. Errors: not_found; already_exists; not_a_notebook where nothing of one reads; damaged where no
// sound notebook came of it; disk_full, read_only, cancelled. An error leaves nothing at `to`.
Result<Salvaged> salvage(const std::string& path, const std::string& to, const SalvageOptions& options);

}  // namespace prillbook::upkeep
