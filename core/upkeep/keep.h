// SPDX-License-Identifier: GPL-3.0-or-later
// Backups that were opened and looked over before they are said to be done, and the migration that makes one first.
#pragma once

#include <memory>
#include <optional>
#include <string>

#include "core/base/result.h"
#include "core/store/backup.h"
#include "core/store/connection.h"

namespace prillbook::upkeep {

// store::back_up with the whole check of upkeep/check.h on the copy. Errors: as there; damaged where the copy (and so
// the notebook) has a fault.
Result<void> back_up(store::Connection& source, const std::string& to, const store::BackupOptions& options = {});
// The same for a notebook at a path, opened for reading.
Result<void> back_up(const std::string& path, const std::string& to, const store::BackupOptions& options = {});

// "lab.prillbook" and version 2: "lab.before-v2.prillbook"; where that is taken "lab.before-v2-2.prillbook" and so on.
std::string free_backup_name(const std::string& path, int to_version);

// Brings an open notebook to the newest schema. A checked backup is put beside it before the first migration; its path
// is given back, nothing where the schema is the newest already. An error leaves the notebook at a whole version.
Result<std::optional<std::string>> migrate_with_backup(store::Connection& connection, const store::BackupOptions& options = {});
// The same for the notebook at a path, which is then open for writing. The caller holds its store::WriterLock.
struct Opened {
  std::unique_ptr<store::Connection> connection;
  std::optional<std::string> backup;  // path of the backup that was made before a migration
};
Result<Opened> open_migrated(const std::string& path, const store::BackupOptions& options = {});

}  // namespace prillbook::upkeep
