// SPDX-License-Identifier: GPL-3.0-or-later
// A copy of a notebook that is checked before it takes its place. Pages are copied by SQLite's backup, never the file.
#pragma once

#include <functional>
#include <string>

#include "core/base/clock.h"
#include "core/base/progress.h"
#include "core/base/result.h"
#include "core/store/connection.h"

namespace prillbook::store {

struct BackupOptions {
  bool replace = false;  // an existing target is replaced; without it, refused
  Instant now;           // for the lock of a target that is replaced
  Progress progress;     // pages
  const Cancellation* cancellation = nullptr;
  std::string vfs;  // of the copy; tests only
};

// Says whether the finished copy, open for reading, may take the place of the target.
using CopyCheck = std::function<Result<void>(Connection& copy)>;

// Copies into `to`.part, opens and checks the copy, moves it into place and syncs the folder. An error leaves an
// existing target as it was and no .part behind. Errors: already_exists, conflict (the target is the notebook itself),
// locked (another program keeps writing, a window holds the target, or an interrupted entry lies beside it), disk_full,
// read_only, not_found (folder), cancelled, and what `check` says.
Result<void> back_up(Connection& source, const std::string& to, const CopyCheck& check, const BackupOptions& options = {});

// Removes a half-made notebook and what SQLite may have left beside it.
void discard(const std::string& path);

}  // namespace prillbook::store
