// SPDX-License-Identifier: GPL-3.0-or-later
// A disk that fails when told to: an SQLite file layer over the usual one. It counts what changes the disk (writes,
// truncations, syncs, deletions of notebooks and journals), can let any one of them fail, and can cut the power there.
//
// The model of the power cut: what was synced is on the disk. Of what was written since, nothing, everything or any part
// by sectors may be there. A file that was made, or deleted, is only surely so once its folder was synced; until then
// the other may be found. SQLite syncs the folder with the first sync of a new journal, and after deleting a journal
// where `synchronous` is EXTRA.
#pragma once

#include <cstdint>
#include <map>
#include <optional>
#include <string>
#include <thread>
#include <vector>

struct sqlite3_vfs;

namespace prillbook::testing_support {

enum class DiskFault {
  none,
  io_error,          // the operation is not done
  io_error_after,    // the operation is done, and reported as failed
  full,              // a write: not done, the disk is full; else as io_error
  full_short_write,  // half of a write is done, then the disk is full; else as io_error
  power_cut,         // nothing is done from here on; call settle() and open the notebook again
};

// What of the unsynced is found after the cut.
enum class Unsynced { lost, kept, partly };

class FailingDisk {
 public:
  // Registers the layer under a name of its own. Only one such disk at a time in a thread's use. What other threads open is
  // let through: neither counted nor failed.
  FailingDisk();
  ~FailingDisk();
  FailingDisk(const FailingDisk&) = delete;
  FailingDisk& operator=(const FailingDisk&) = delete;

  const std::string& vfs() const { return name_; }
  // Takes the place of the usual disk for whoever names none, for as long as it lives.
  void stand_in();

  // Called with every connection closed: the files are taken as they are now for what is surely on the disk.
  // The `at`-th operation from now, counted from 1, meets the fault; later ones go well unless the power is cut.
  void arm(DiskFault fault, long at);
  // Every operation from the `at`-th on meets the fault.
  void arm_from(DiskFault fault, long at);
  long operations() const { return operations_; }  // since the last arm()
  bool is_off() const { return off_; }

  // The file, or its folder, can not be written, as the system would say it. Permission bits do not show this in a test:
  // they do not hold for the superuser, and tests may run as such.
  void refuse_writing(bool file, bool folder) {
    file_refused_ = file;
    folder_refused_ = folder;
  }
  bool refuses_file() const { return file_refused_; }
  bool refuses_folder() const { return folder_refused_; }

  // What was synced and what was written since, for one cut to be settled in several ways.
  class Left;
  Left left() const;
  // After a power cut, with every connection closed: makes the files on the real disk what the cut left of them, and
  // switches the power on again.
  void settle(Unsynced unsynced, std::uint32_t seed = 1);
  void settle(const Left& left, Unsynced unsynced, std::uint32_t seed = 1);

  // For the file layer only.
  enum class Operation { write, truncate, sync, remove };
  bool is_for_this_thread() const { return std::this_thread::get_id() == thread_; }
  DiskFault meet(Operation operation);
  void opened(const std::string& path, bool created);
  void wrote(const std::string& path, std::int64_t offset, std::string bytes);
  void truncated(const std::string& path, std::int64_t size);
  void synced(const std::string& path, bool with_folder);
  void removed(const std::string& path, bool with_folder);
  sqlite3_vfs* real() const { return real_; }

 private:
  struct Change {
    std::int64_t offset;  // or the new size
    std::string bytes;
    bool truncation = false;
  };
  struct File {
    std::string synced;           // surely on the disk
    std::vector<Change> changes;  // since then, in order
    bool entry_synced = false;    // its name is surely in the folder
    bool there = true;            // false: deleted, but may come back
  };
  static std::string after(const File& file, Unsynced unsynced, std::uint32_t& state);
  void sync_folder();

  std::thread::id thread_ = std::this_thread::get_id();
  std::string name_;
  sqlite3_vfs* real_;
  sqlite3_vfs* layer_;
  std::map<std::string, File> files_;
  DiskFault fault_ = DiskFault::none;
  long at_ = 0;
  bool onwards_ = false;
  long operations_ = 0;
  bool off_ = false;
  bool file_refused_ = false;
  bool folder_refused_ = false;
};

class FailingDisk::Left {
  friend class FailingDisk;
  std::map<std::string, File> files_;
};

}  // namespace prillbook::testing_support
