// SPDX-License-Identifier: GPL-3.0-or-later
// Looks a notebook over: structure, schema, references, the history and its hashes, the history replayed against the
// tables, whether every cell says something its field can say, the words to search by and what waits against
// the records, and every photograph against its hash. Reads only: nothing is migrated, nothing written.
#pragma once

#include <string>
#include <vector>

#include "core/base/result.h"
#include "core/history/verify.h"
#include "core/store/connection.h"
#include "core/store/structure.h"

namespace prillbook::upkeep {

struct CheckReport {
  int version = 0;
  std::int64_t history_rows = 0;
  std::int64_t records = 0;  // records whose history and table were compared
  history::Hash head{};      // hash of the last history row
  std::vector<store::Fault> faults;
  std::size_t found = 0;  // all that were found; `faults` holds the first store::FaultList::most

  bool sound() const { return faults.empty(); }
};

using CheckControls = history::VerifyControls;

// Errors: what opening the file gives; cancelled; newer_version, since the schema of a later version is not known here.
Result<CheckReport> check_notebook(const std::string& path, const CheckControls& controls = {}, const std::string& vfs = "");
// The same for an open notebook. It is read on one snapshot, which keeps others from writing meanwhile; a long check
// in the window runs on a backup.
Result<CheckReport> check_notebook(store::Connection& connection, const CheckControls& controls = {});

// An error that names the first fault, where there is one; code damaged.
Result<void> sound_or_error(const CheckReport& report, const std::string& path);

}  // namespace prillbook::upkeep
