// SPDX-License-Identifier: GPL-3.0-or-later
// The copies that a notebook takes of itself: each checked before it counts, the old ones thinned out by copy_rule.h.
#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "core/base/clock.h"
#include "core/base/progress.h"
#include "core/base/result.h"
#include "core/history/chain.h"
#include "core/store/backup.h"
#include "core/upkeep/copy_rule.h"

namespace prillbook::upkeep {

// Folders. The first is made where it is missing, the second never: a stick that is not plugged in is no folder.
struct CopyPlaces {
  std::string first;   // empty: usual_copy_place()
  std::string second;  // empty: none
};

// "lab.prillbook": the folder "lab-copies" beside it.
std::string usual_copy_place(const std::string& notebook);

enum class CopyKind {
  taken,             // by take_copy
  before_migration,  // lab.before-v9.prillbook, beside the notebook
  replaced,          // what was there before a copy was restored, beside the notebook
  sealed,            // by a passphrase; found in one of the places
  conflict,          // another version, beside the notebook (conflict.h)
};

struct Copy {
  std::string path;
  CopyKind kind = CopyKind::taken;
  std::optional<CopyTime> taken;  // as the name says; only of taken and replaced
  std::int64_t bytes = 0;
  std::int64_t written_s = 0;  // seconds since 1970, by the file system

  friend bool operator==(const Copy&, const Copy&) = default;
};

// Copies of this notebook in one folder by their names, newest first; none where the folder can't be read.
std::vector<Copy> copies_in(const std::string& folder, const std::string& notebook);
// The same of both places and of the folder of the notebook.
std::vector<Copy> all_copies(const std::string& notebook, const CopyPlaces& places);

struct TakenCopy {
  std::optional<std::string> path;    // nothing: the newest copy holds the same already
  std::size_t thinned_out = 0;        // older copies that went, in both places
  std::optional<Error> second_fault;  // why there is none in the second place
};

// Copies the notebook, opened for reading on a connection of its own, into the first place and then the second, checks
// each copy whole, and thins out older ones. Only copies of this very notebook are thinned out, never the newest. For a
// thread of its own: a writer is never kept waiting longer than a few pages take. Errors: as back_up; an error leaves all
// older copies as they were and no half copy.
Result<TakenCopy> take_copy(const std::string& notebook, const CopyPlaces& places, const Instant& now,
                            const store::BackupOptions& options = {});

// Whether the newest copy in the first place was made on an earlier day than this, or there is none.
bool copy_is_due(const std::string& notebook, const CopyPlaces& places, const Instant& now);

}  // namespace prillbook::upkeep
