// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/upkeep/keep.h"

#include <fmt/format.h>

#include <filesystem>

#include "core/upkeep/check.h"

namespace prillbook::upkeep {

Result<void> back_up(store::Connection& source, const std::string& to, const store::BackupOptions& options) {
  const auto looked_over = [&](store::Connection& copy) -> Result<void> {
    CheckControls controls;
    controls.cancellation = options.cancellation;
    PRILLBOOK_ASSIGN(const CheckReport report, check_notebook(copy, controls));
    return sound_or_error(report, source.path());
  };
  return store::back_up(source, to, looked_over, options);
}

Result<void> back_up(const std::string& path, const std::string& to, const store::BackupOptions& options) {
  PRILLBOOK_ASSIGN(const auto source, store::Connection::open(path, store::Access::read_only));
  return back_up(*source, to, options);
}

std::string free_backup_name(const std::string& path, int to_version) {
  const std::filesystem::path notebook(path);
  const std::string stem = notebook.stem().string(), ending = notebook.extension().string();
  std::string name = fmt::format("{}.before-v{}{}", stem, to_version, ending);
  std::error_code code;
  for (int number = 2; std::filesystem::exists(std::filesystem::symlink_status(notebook.parent_path() / name, code)); ++number)
    name = fmt::format("{}.before-v{}-{}{}", stem, to_version, number, ending);
  return (notebook.parent_path() / name).string();
}

Result<std::optional<std::string>> migrate_with_backup(store::Connection& connection, const store::BackupOptions& options) {
  PRILLBOOK_ASSIGN(const int version, connection.version());
  if (version >= store::Connection::newest_version()) return std::optional<std::string>();
  const std::string backup = free_backup_name(connection.path(), store::Connection::newest_version());
  PRILLBOOK_TRY(back_up(connection, backup, options));
  PRILLBOOK_TRY(connection.migrate());
  return std::optional<std::string>(backup);
}

Result<Opened> open_migrated(const std::string& path, const store::BackupOptions& options) {
  PRILLBOOK_ASSIGN(auto connection, store::Connection::open(path, store::Access::read_write));
  PRILLBOOK_ASSIGN(auto backup, migrate_with_backup(*connection, options));
  return Opened{std::move(connection), std::move(backup)};
}

}  // namespace prillbook::upkeep
