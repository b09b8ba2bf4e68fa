// SPDX-License-Identifier: GPL-3.0-or-later
#include "tests/support/failing_vfs.h"

#include <fmt/format.h>
#include <sqlite3.h>

#include <algorithm>
#include <cstddef>
#include <cstring>
#include <filesystem>
#include <new>

#include "tests/support/files.h"

namespace prillbook::testing_support {
namespace {

constexpr std::int64_t sector = 512;

// What SQLite allocates for an open file: this, with the file of the layer below right behind it.
struct Wrapped {
  sqlite3_file base;
  FailingDisk* disk;
  std::string* path;  // null for a temporary file, which is left alone
  bool syncs_folder;  // a new journal: its first sync also syncs the folder
};
constexpr std::size_t real_at =
    (sizeof(Wrapped) + alignof(std::max_align_t) - 1) / alignof(std::max_align_t) * alignof(std::max_align_t);

Wrapped& self(sqlite3_file* file) { return *reinterpret_cast<Wrapped*>(file); }
sqlite3_file* real(sqlite3_file* file) { return reinterpret_cast<sqlite3_file*>(reinterpret_cast<char*>(file) + real_at); }
FailingDisk& disk_of(sqlite3_vfs* vfs) { return *static_cast<FailingDisk*>(vfs->pAppData); }

int code_of(DiskFault fault, int io_error) {
  if (fault == DiskFault::full || fault == DiskFault::full_short_write) return SQLITE_FULL;
  return io_error;
}

int close_file(sqlite3_file* file) {
  delete self(file).path;
  return real(file)->pMethods->xClose(real(file));
}

int read_file(sqlite3_file* file, void* to, int count, sqlite3_int64 offset) {
  if (self(file).path && self(file).disk->is_off()) return SQLITE_IOERR_READ;
  return real(file)->pMethods->xRead(real(file), to, count, offset);
}

int write_file(sqlite3_file* file, const void* from, int count, sqlite3_int64 offset) {
  Wrapped& wrapped = self(file);
  const auto write = [&](int bytes) {
    const int status = real(file)->pMethods->xWrite(real(file), from, bytes, offset);
    if (status == SQLITE_OK && wrapped.path)
      wrapped.disk->wrote(*wrapped.path, offset, std::string(static_cast<const char*>(from), static_cast<std::size_t>(bytes)));
    return status;
  };
  if (!wrapped.path) return write(count);
  const DiskFault fault = wrapped.disk->meet(FailingDisk::Operation::write);
  if (fault == DiskFault::none) return write(count);
  if (fault == DiskFault::full_short_write && count > 1) write(count / 2);
  if (fault == DiskFault::io_error_after) write(count);
  // Cut in the middle of it: as unsynced as what was written before.
  if (fault == DiskFault::power_cut)
    wrapped.disk->wrote(*wrapped.path, offset, std::string(static_cast<const char*>(from), static_cast<std::size_t>(count)));
  return code_of(fault, SQLITE_IOERR_WRITE);
}

int truncate_file(sqlite3_file* file, sqlite3_int64 size) {
  Wrapped& wrapped = self(file);
  const auto truncate = [&] {
    const int status = real(file)->pMethods->xTruncate(real(file), size);
    if (status == SQLITE_OK && wrapped.path) wrapped.disk->truncated(*wrapped.path, size);
    return status;
  };
  if (!wrapped.path) return truncate();
  const DiskFault fault = wrapped.disk->meet(FailingDisk::Operation::truncate);
  if (fault == DiskFault::none) return truncate();
  if (fault == DiskFault::io_error_after) truncate();
  if (fault == DiskFault::power_cut) wrapped.disk->truncated(*wrapped.path, size);
  return SQLITE_IOERR_TRUNCATE;
}

// The layer below is not asked: the files of a test need not survive a real power cut.
int sync_file(sqlite3_file* file, int) {
  Wrapped& wrapped = self(file);
  if (!wrapped.path) return SQLITE_OK;
  const DiskFault fault = wrapped.disk->meet(FailingDisk::Operation::sync);
  if (fault == DiskFault::none || fault == DiskFault::io_error_after) {
    wrapped.disk->synced(*wrapped.path, wrapped.syncs_folder);
    wrapped.syncs_folder = false;
  }
  return fault == DiskFault::none ? SQLITE_OK : code_of(fault, SQLITE_IOERR_FSYNC);
}

int file_size(sqlite3_file* file, sqlite3_int64* size) { return real(file)->pMethods->xFileSize(real(file), size); }
int lock_file(sqlite3_file* file, int level) { return real(file)->pMethods->xLock(real(file), level); }
int unlock_file(sqlite3_file* file, int level) { return real(file)->pMethods->xUnlock(real(file), level); }
int check_lock(sqlite3_file* file, int* held) { return real(file)->pMethods->xCheckReservedLock(real(file), held); }
int control_file(sqlite3_file* file, int what, void* argument) {
  return real(file)->pMethods->xFileControl(real(file), what, argument);
}
int sector_size(sqlite3_file* file) { return real(file)->pMethods->xSectorSize(real(file)); }
int characteristics(sqlite3_file* file) { return real(file)->pMethods->xDeviceCharacteristics(real(file)); }

// Version 1: no shared memory and no mapped pages, every byte comes by here.
constexpr sqlite3_io_methods methods{1,         close_file,  read_file,  write_file,   truncate_file, sync_file,       file_size,
                                     lock_file, unlock_file, check_lock, control_file, sector_size,   characteristics, nullptr,
                                     nullptr,   nullptr,     nullptr,    nullptr,      nullptr};

int open_file(sqlite3_vfs* vfs, const char* name, sqlite3_file* file, int flags, int* out_flags) {
  FailingDisk& disk = disk_of(vfs);
  Wrapped& wrapped = *new (file) Wrapped{};
  const bool kept = name && (flags & (SQLITE_OPEN_MAIN_DB | SQLITE_OPEN_MAIN_JOURNAL)) && disk.is_for_this_thread();
  if (kept && disk.is_off()) return SQLITE_CANTOPEN;
  if ((flags & SQLITE_OPEN_MAIN_DB) && disk.refuses_file())
    flags = (flags & ~(SQLITE_OPEN_READWRITE | SQLITE_OPEN_CREATE)) | SQLITE_OPEN_READONLY;
  if ((flags & SQLITE_OPEN_MAIN_JOURNAL) && disk.refuses_folder()) return SQLITE_READONLY_DIRECTORY;
  const bool existed = name && std::filesystem::exists(name);
  // The model reads the file before SQLite has it open: closing a second descriptor would drop its locks.
  if (kept) disk.opened(name, !existed);
  const int status = disk.real()->xOpen(disk.real(), name, real(file), flags, out_flags);
  if (status != SQLITE_OK) return status;
  wrapped.disk = &disk;
  if (kept) {
    wrapped.path = new std::string(name);
    wrapped.syncs_folder = !existed && (flags & SQLITE_OPEN_MAIN_JOURNAL);
  }
  wrapped.base.pMethods = &methods;
  return SQLITE_OK;
}

int delete_file(sqlite3_vfs* vfs, const char* name, int with_folder) {
  FailingDisk& disk = disk_of(vfs);
  if (!disk.is_for_this_thread()) return disk.real()->xDelete(disk.real(), name, with_folder);
  const auto remove = [&] {
    const int status = disk.real()->xDelete(disk.real(), name, 0);
    if (status == SQLITE_OK) disk.removed(name, with_folder != 0);
    return status;
  };
  const DiskFault fault = disk.meet(FailingDisk::Operation::remove);
  if (fault == DiskFault::none) return remove();
  if (fault == DiskFault::io_error_after) {
    remove();
    return SQLITE_IOERR_DIR_FSYNC;
  }
  // Cut between the deletion and the sync of the folder.
  if (fault == DiskFault::power_cut) disk.removed(name, false);
  return SQLITE_IOERR_DELETE;
}

int access_file(sqlite3_vfs* vfs, const char* name, int flags, int* out) {
  return disk_of(vfs).real()->xAccess(disk_of(vfs).real(), name, flags, out);
}

sqlite3_vfs* layer_over(sqlite3_vfs* below, const std::string& name, FailingDisk* disk) {
  auto* layer = new sqlite3_vfs(*below);
  layer->zName = name.c_str();
  layer->pNext = nullptr;
  layer->pAppData = disk;
  layer->szOsFile = static_cast<int>(real_at) + below->szOsFile;
  layer->xOpen = open_file;
  layer->xDelete = delete_file;
  layer->xAccess = access_file;
  return layer;
}

std::string vfs_name() {
  static int number = 0;
  return fmt::format("failing-{}", ++number);
}

}  // namespace

FailingDisk::FailingDisk() : name_(vfs_name()), real_(sqlite3_vfs_find(nullptr)), layer_(layer_over(real_, name_, this)) {
  sqlite3_vfs_register(layer_, 0);
}

FailingDisk::~FailingDisk() {
  sqlite3_vfs_unregister(layer_);
  delete layer_;
}

void FailingDisk::stand_in() { sqlite3_vfs_register(layer_, 1); }

void FailingDisk::arm(DiskFault fault, long at) {
  fault_ = fault;
  at_ = at;
  onwards_ = false;
  operations_ = 0;
  files_.clear();
}

void FailingDisk::arm_from(DiskFault fault, long at) {
  arm(fault, at);
  onwards_ = true;
}

DiskFault FailingDisk::meet(Operation) {
  if (off_) return DiskFault::io_error;
  ++operations_;
  if (fault_ == DiskFault::none || operations_ < at_ || (operations_ > at_ && !onwards_)) return DiskFault::none;
  off_ = fault_ == DiskFault::power_cut;
  return fault_;
}

void FailingDisk::opened(const std::string& path, bool created) {
  if (created) {
    // The journal of the last entry, if it may still come back, is written over by this one.
    File file;
    if (const auto old = files_.find(path); old != files_.end()) {
      file.entry_synced = old->second.entry_synced;
      file.synced = old->second.synced;
      file.changes.push_back({0, "", true});
    }
    files_[path] = std::move(file);
  } else if (!files_.contains(path)) {
    File file;
    file.synced = file_text(path);
    file.entry_synced = true;
    files_[path] = std::move(file);
  }
}

void FailingDisk::wrote(const std::string& path, std::int64_t offset, std::string bytes) {
  files_[path].changes.push_back({offset, std::move(bytes)});
}

void FailingDisk::truncated(const std::string& path, std::int64_t size) { files_[path].changes.push_back({size, "", true}); }

void FailingDisk::synced(const std::string& path, bool with_folder) {
  File& file = files_[path];
  std::uint32_t unused = 0;
  file.synced = after(file, Unsynced::kept, unused);
  file.changes.clear();
  if (with_folder) sync_folder();
}

void FailingDisk::removed(const std::string& path, bool with_folder) {
  files_[path].there = false;
  if (with_folder) sync_folder();
}

void FailingDisk::sync_folder() {
  std::erase_if(files_, [](const auto& entry) { return !entry.second.there; });
  for (auto& [path, file] : files_) file.entry_synced = true;
}

std::string FailingDisk::after(const File& file, Unsynced unsynced, std::uint32_t& state) {
  std::string text = file.synced;
  if (unsynced == Unsynced::lost) return text;
  const auto arrives = [&] {
    state = state * 1664525u + 1013904223u;
    return unsynced == Unsynced::kept || (state >> 16) % 2 == 0;
  };
  for (const Change& change : file.changes) {
    if (change.truncation) {
      if (arrives()) text.resize(static_cast<std::size_t>(change.offset));
      continue;
    }
    const auto end = change.offset + static_cast<std::int64_t>(change.bytes.size());
    for (std::int64_t from = change.offset; from < end;) {
      const std::int64_t to = std::min(end, (from / sector + 1) * sector);
      if (arrives()) {
        if (static_cast<std::int64_t>(text.size()) < to) text.resize(static_cast<std::size_t>(to));
        std::copy_n(change.bytes.begin() + (from - change.offset), to - from, text.begin() + from);
      }
      from = to;
    }
  }
  return text;
}

FailingDisk::Left FailingDisk::left() const {
  Left left;
  left.files_ = files_;
  return left;
}

void FailingDisk::settle(Unsynced unsynced, std::uint32_t seed) { settle(left(), unsynced, seed); }

void FailingDisk::settle(const Left& left, Unsynced unsynced, std::uint32_t seed) {
  std::uint32_t state = seed;
  for (const auto& [path, file] : left.files_) {
    state = state * 1664525u + 1013904223u;
    const bool coin = (state >> 16) % 2 == 0;
    // Lost: neither a new name nor a deletion that was not synced is on the disk.
    const bool there = unsynced == Unsynced::lost   ? file.entry_synced
                       : unsynced == Unsynced::kept ? file.there
                                                    : (file.entry_synced == file.there ? file.there : coin);
    // Removed first: some file systems write through what is written over.
    std::filesystem::remove(path);
    if (there) testing_support::write_file(path, after(file, unsynced, state));
  }
  arm(DiskFault::none, 0);
  off_ = false;
}

}  // namespace prillbook::testing_support
