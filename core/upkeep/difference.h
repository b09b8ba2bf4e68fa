// SPDX-License-Identifier: GPL-3.0-or-later
// What a copy holds, and what parts it from the notebook of today: the entries that only one of them has.
#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <utility>
#include <vector>

#include "core/history/catalogue.h"
#include "core/history/chain.h"
#include "core/store/connection.h"

namespace prillbook::upkeep {

struct Holds {
  int version = 0;
  std::int64_t samples = 0;
  std::int64_t entries = 0;  // rows of the history
  std::optional<history::HistoryRow> last;
};
Result<Holds> what_it_holds(store::Connection& connection);

// Entries after the last one that both have.
struct Since {
  std::int64_t entries = 0;
  std::int64_t gestures = 0;
  std::vector<std::pair<std::string, std::int64_t>> gestures_by_person;  // initials, most first
  std::vector<std::pair<history::Entity, std::int64_t>> made;            // records
  std::vector<history::HistoryRow> newest;                               // first entry of each gesture, newest first
};

struct Difference {
  std::int64_t shared_entries = 0;
  Since only_here, only_in_copy;

  // False where they don't begin alike: a copy of another notebook.
  bool related() const { return shared_entries > 0 || only_here.entries == 0 || only_in_copy.entries == 0; }
  bool same() const { return only_here.entries == 0 && only_in_copy.entries == 0; }
};

// Found by the hashes of the history, of which a few dozen are read: each stands for all entries before it. At most
// `most_newest` gestures are told one by one. Errors: the faults of the files.
Result<Difference> difference(store::Connection& here, store::Connection& copy, std::int64_t most_newest = 8);

}  // namespace prillbook::upkeep
