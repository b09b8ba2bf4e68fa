// SPDX-License-Identifier: GPL-3.0-or-later
// The journal as a list: one line an entry, newest first, columns as in docs/exports.md.
#pragma once

#include <string>

#include "core/base/progress.h"
#include "core/base/result.h"
#include "core/store/connection.h"
#include "core/versions/versions.h"

namespace prillbook::exchange {

struct JournalList {
  std::int64_t lines = 0;
};

// Writes the entries that the filter lets through. A file that can't be finished is left out; one of that name is then as
// it was. Errors: disk_full, read_only, not_found (folder), cancelled.
Result<JournalList> write_journal(store::Connection& connection, const versions::JournalFilter& filter, const std::string& path,
                                  const Cancellation* cancellation = nullptr);

}  // namespace prillbook::exchange
