// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/store/faults.h"

#include <fmt/format.h>
#include <sqlite3.h>

namespace prillbook::store {
namespace {

struct Mapped {
  ErrorCode code;
  const char* sentence;
};

Mapped mapped(int primary, int extended) {
  switch (primary) {
    case SQLITE_FULL: return {ErrorCode::disk_full, "the disk is full"};
    case SQLITE_READONLY:
      if (extended == SQLITE_READONLY_ROLLBACK)
        return {ErrorCode::locked, "an interrupted entry has to be taken back first; open the notebook for writing once"};
      return {ErrorCode::read_only, "the file can not be written"};
    case SQLITE_BUSY:
    case SQLITE_LOCKED: return {ErrorCode::locked, "another program is writing to the file"};
    case SQLITE_NOTADB: return {ErrorCode::not_a_notebook, "the file is no notebook"};
    case SQLITE_CANTOPEN: return {ErrorCode::not_found, "the file can not be opened"};
    case SQLITE_PERM:
    case SQLITE_AUTH: return {ErrorCode::read_only, "access to the file is not allowed"};
    case SQLITE_CONSTRAINT: return {ErrorCode::inconsistent, "the entry contradicts what the notebook holds"};
    case SQLITE_INTERRUPT: return {ErrorCode::cancelled, "the work was stopped"};
    case SQLITE_IOERR:
      if (extended == SQLITE_IOERR_READ || extended == SQLITE_IOERR_SHORT_READ)
        return {ErrorCode::damaged, "the file can not be read"};
      // A full disk shows up here when it is the journal or a sync that fails.
      return {ErrorCode::disk_full, "writing to the disk failed"};
    default: return {ErrorCode::damaged, "the file is damaged"};
  }
}

}  // namespace

Error fault(const SQLite::Exception& exception, const std::string& path) {
  const Mapped m = mapped(exception.getErrorCode() & 0xFF, exception.getExtendedErrorCode());
  return {m.code, "", fmt::format("{}: {} ({})", path, m.sentence, exception.what()), {path}};
}

}  // namespace prillbook::store
