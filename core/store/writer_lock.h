// SPDX-License-Identifier: GPL-3.0-or-later
// Keeps a second window from writing to the same notebook: a lock on a side file `<notebook>.lock`, held for life.
// Reading takes no lock. The notebook file itself is never opened here: closing a second descriptor of it would drop
// the locks that SQLite holds.
#pragma once

#include <memory>
#include <string>

#include "core/base/clock.h"
#include "core/base/result.h"

namespace prillbook::store {

// Who holds a notebook, as its side file says; for a message only, the lock itself is kept by the system.
struct Holder {
  std::string user;
  std::string host;
  std::string pid;
  std::string since;  // ISO 8601 with offset
};

// A side file that no process of this machine holds: left by a crash here, or written on another machine and brought by a
// folder that is kept alike between the two. The system's lock does not travel with it.
enum class TakeOver { from_this_machine, from_any };

class WriterLock {
 public:
  // Takes the lock of the notebook at `path`, which need not exist yet. A side file left by a crash of this machine is
  // taken over; one that names another machine only with TakeOver::from_any: else the error is locked with the field
  // "elsewhere".
  // Errors: locked (arguments: path, user, host, pid, since; empty where the side file does not say), read_only (the
  // folder can not be written), not_found (no folder), disk_full.
  static Result<std::unique_ptr<WriterLock>> take(const std::string& path, const Instant& since,
                                                  TakeOver take_over = TakeOver::from_this_machine);
  ~WriterLock();  // removes the side file
  WriterLock(const WriterLock&) = delete;
  WriterLock& operator=(const WriterLock&) = delete;

  const std::string& side_file() const { return side_file_; }

 private:
  WriterLock(int descriptor, std::string side_file) : descriptor_(descriptor), side_file_(std::move(side_file)) {}

  int descriptor_;
  std::string side_file_;
};

}  // namespace prillbook::store
