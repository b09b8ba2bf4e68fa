// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/store/backup.h"

#include <SQLiteCpp/Backup.h>
#include <SQLiteCpp/Database.h>
#include <fmt/format.h>
#include <sqlite3.h>

#include <chrono>
#include <filesystem>
#include <limits>
#include <memory>
#include <thread>

#include "core/store/faults.h"
#include "core/store/part_file.h"
#include "core/store/writer_lock.h"

namespace prillbook::store {
namespace {

namespace fs = std::filesystem;

constexpr int pages_a_step = 512;
// In a row; in between the writer has its turn.
constexpr int busy_at_most = 10;
constexpr std::chrono::milliseconds busy_pause{20};
// An entry written meanwhile has the copy begin anew.
constexpr int restarts_at_most = 50;

Result<void> look_at_target(const Connection& source, const std::string& to, bool replace) {
  std::error_code code;
  for (const std::string& taken : {to, to + ".part"})
    if (fs::equivalent(source.path(), taken, code))
      return Error{ErrorCode::conflict, "", fmt::format("{}: this is the notebook itself", taken), {taken}};
  if (!replace && fs::exists(fs::symlink_status(to, code)))
    return Error{ErrorCode::already_exists, "", fmt::format("{}: the file exists already", to), {to}};
  // A journal left beside the old file would be played back into the new one.
  for (const char* ending : {"-journal", "-wal"})
    if (fs::exists(fs::symlink_status(to + ending, code)))
      return Error{ErrorCode::locked, "", fmt::format("{}{}: an interrupted entry lies beside the file", to, ending), {to}};
  return {};
}

Error keeps_writing(const std::string& path) {
  return {ErrorCode::locked, "", fmt::format("{}: another program keeps writing to the file", path), {path}};
}

Result<void> copy_pages(SQLite::Backup& backup, const std::string& path, const BackupOptions& options) {
  int busy = 0, restarts = 0, remaining = std::numeric_limits<int>::max();
  for (int status = SQLITE_OK; status != SQLITE_DONE;) {
    if (options.cancellation && options.cancellation->requested())
      return Error{ErrorCode::cancelled, "", "the backup was stopped", {}};
    PRILLBOOK_ASSIGN(status, guarded(path, [&] { return backup.executeStep(pages_a_step); }));
    if (status == SQLITE_BUSY || status == SQLITE_LOCKED) {
      std::this_thread::sleep_for(busy_pause);
      if (++busy >= busy_at_most) return keeps_writing(path);
      continue;
    }
    busy = 0;
    restarts += backup.getRemainingPageCount() > remaining;
    remaining = backup.getRemainingPageCount();
    if (restarts >= restarts_at_most) return keeps_writing(path);
    if (options.progress)
      options.progress(backup.getTotalPageCount() - backup.getRemainingPageCount(), backup.getTotalPageCount());
  }
  return {};
}

Result<void> copy_to(Connection& source, const std::string& part, const BackupOptions& options) {
  PRILLBOOK_ASSIGN(const auto target, guarded(part, [&] {
                     return std::make_unique<SQLite::Database>(part, SQLite::OPEN_READWRITE | SQLite::OPEN_CREATE, 0,
                                                               options.vfs);
                   }));
  // The copy is thrown away where it does not succeed: it needs no journal of its own, but it has to be synced.
  PRILLBOOK_TRY(guarded(part, [&] { target->exec("PRAGMA journal_mode = MEMORY; PRAGMA synchronous = FULL;"); }));
  PRILLBOOK_ASSIGN(const auto backup,
                   guarded(part, [&] { return std::make_unique<SQLite::Backup>(*target, source.database()); }));
  return copy_pages(*backup, part, options);
}

}  // namespace

void discard(const std::string& path) {
  std::error_code ignored;
  for (const char* ending : {"", "-journal", "-wal", "-shm"}) fs::remove(path + ending, ignored);
}

Result<void> back_up(Connection& source, const std::string& to, const CopyCheck& check, const BackupOptions& options) {
  PRILLBOOK_TRY(look_at_target(source, to, options.replace));
  std::unique_ptr<WriterLock> lock;
  if (options.replace) {
    PRILLBOOK_ASSIGN(lock, WriterLock::take(to, options.now));
  }
  const std::string part = to + ".part";
  discard(part);
  Result<void> outcome = copy_to(source, part, options);
  if (outcome) {
    // Closed again before it is moved: SQLite knows an open file by its name.
    auto copy = Connection::open(part, Access::read_only, options.vfs);
    outcome = copy ? check(**copy) : Result<void>(copy.error());
  }
  if (outcome) outcome = move_into_place(part, to, options.replace);
  if (!outcome) discard(part);
  return outcome;
}

}  // namespace prillbook::store
