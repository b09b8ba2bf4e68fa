// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/store/backup.h"

#include <SQLiteCpp/Backup.h>
#include <SQLiteCpp/Database.h>
#include <fcntl.h>
#include <fmt/format.h>
#include <sqlite3.h>
#include <unistd.h>

#include <cerrno>
#include <chrono>
#include <cstdio>
#include <filesystem>
#include <limits>
#include <memory>
#include <thread>

#include "core/store/faults.h"
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

Error system_fault(const std::string& path, int reason, std::string_view what) {
  const ErrorCode code = reason == ENOENT || reason == ENOTDIR                                         ? ErrorCode::not_found
                         : reason == EACCES || reason == EPERM || reason == EROFS || reason == ETXTBSY ? ErrorCode::read_only
                         : reason == EEXIST                                                            ? ErrorCode::already_exists
                                                                                                       : ErrorCode::disk_full;
  return {code, "", fmt::format("{}: {} (system error {})", path, what, reason), {path}};
}

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

Result<void> sync_folder_of(const std::string& path) {
  const fs::path folder = fs::path(path).parent_path();
  const int descriptor = open(folder.empty() ? "." : folder.c_str(), O_RDONLY | O_DIRECTORY | O_CLOEXEC);
  if (descriptor < 0) return system_fault(path, errno, "the folder can not be opened");
  const int outcome = fsync(descriptor);
  const int reason = errno;
  close(descriptor);
  // Some file systems do not sync folders; they say so with EINVAL.
  if (outcome != 0 && reason != EINVAL) return system_fault(path, reason, "the folder can not be synced");
  return {};
}

}  // namespace

void discard(const std::string& path) {
  std::error_code ignored;
  for (const char* ending : {"", "-journal", "-wal", "-shm"}) fs::remove(path + ending, ignored);
}

Result<void> move_into_place(const std::string& from, const std::string& to, bool replace) {
  int outcome = 0;
  if (replace) {
    outcome = rename(from.c_str(), to.c_str());
  } else {
    outcome = renameat2(AT_FDCWD, from.c_str(), AT_FDCWD, to.c_str(), RENAME_NOREPLACE);
    std::error_code code;
    if (outcome != 0 && (errno == EINVAL || errno == ENOSYS)) {
      if (fs::exists(fs::symlink_status(to, code))) return system_fault(to, EEXIST, "the file exists already");
      outcome = rename(from.c_str(), to.c_str());
    }
  }
  if (outcome != 0) return system_fault(to, errno, "the file can not be put there");
  return sync_folder_of(to);
}

Result<void> change_places(const std::string& one, const std::string& other) {
  if (renameat2(AT_FDCWD, one.c_str(), AT_FDCWD, other.c_str(), RENAME_EXCHANGE) == 0) return sync_folder_of(other);
  if (errno != EINVAL && errno != ENOSYS) return system_fault(other, errno, "the file can not be put there");
  const std::string aside = one + ".aside";
  PRILLBOOK_TRY(move_into_place(one, aside, true));
  if (auto moved = move_into_place(other, one, true); !moved) {
    (void)move_into_place(aside, one, true);
    return moved;
  }
  if (auto moved = move_into_place(aside, other, true); !moved) {
    (void)move_into_place(one, other, true);
    (void)move_into_place(aside, one, true);
    return moved;
  }
  return {};
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
