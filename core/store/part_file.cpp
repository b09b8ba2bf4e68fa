// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/store/part_file.h"

#include <fcntl.h>
#include <fmt/format.h>
#include <sys/stat.h>
#include <unistd.h>

#include <cerrno>
#include <cstdio>
#include <filesystem>

namespace prillbook::store {
namespace {

namespace fs = std::filesystem;

// Closes and drops the part file, and reports the error that stopped the writing.
Error abandoned(int descriptor, const std::string& path) {
  const int reason = errno;
  if (descriptor >= 0) ::close(descriptor);
  drop_part(path);
  return file_fault(reason, path);
}

bool write_all(int descriptor, std::string_view bytes) {
  while (!bytes.empty()) {
    const ssize_t count = ::write(descriptor, bytes.data(), bytes.size());
    if (count < 0 && errno == EINTR) continue;
    if (count < 0) return false;
    bytes.remove_prefix(static_cast<std::size_t>(count));
  }
  return true;
}

Result<void> sync_folder_of(const std::string& path) {
  const fs::path folder = fs::path(path).parent_path();
  const int descriptor = ::open(folder.empty() ? "." : folder.c_str(), O_RDONLY | O_DIRECTORY | O_CLOEXEC);
  if (descriptor < 0) return {};  // one may write to a folder that one may not read
  const int outcome = ::fsync(descriptor);
  const int reason = errno;
  ::close(descriptor);
  // Some file systems do not sync folders; they say so with EINVAL.
  if (outcome == 0 || reason == EINVAL) return {};
  return Error{
      ErrorCode::disk_full, "commit_done", fmt::format("{}: the disk can not make sure of the file’s name", path), {path}};
}

bool exchanged(const std::string& one, const std::string& other) {
  return ::renameat2(AT_FDCWD, one.c_str(), AT_FDCWD, other.c_str(), RENAME_EXCHANGE) == 0;
}

bool not_known_here(int reason) { return reason == EINVAL || reason == ENOSYS; }

// False where nothing was moved, with errno.
bool moved(const std::string& from, const std::string& to, bool replace) {
  if (replace) return std::rename(from.c_str(), to.c_str()) == 0;
  if (::renameat2(AT_FDCWD, from.c_str(), AT_FDCWD, to.c_str(), RENAME_NOREPLACE) == 0) return true;
  if (!not_known_here(errno)) return false;
  std::error_code code;
  if (!fs::exists(fs::symlink_status(to, code))) return std::rename(from.c_str(), to.c_str()) == 0;
  errno = EEXIST;
  return false;
}

Result<void> change_in_three_steps(const std::string& one, const std::string& other) {
  const std::string aside = one + ".aside";
  if (!moved(one, aside, true)) return file_fault(errno, other);
  if (!moved(other, one, true)) {
    const Error fault = file_fault(errno, other);
    (void)moved(aside, one, true);
    return fault;
  }
  if (!moved(aside, other, true)) {
    const Error fault = file_fault(errno, other);
    (void)(moved(one, other, true) && moved(aside, one, true));
    return fault;
  }
  return {};
}

}  // namespace

std::string part_path(const std::string& path) { return path + ".part"; }

Error file_fault(int system_error, const std::string& path) {
  switch (system_error) {
    case ENOSPC:
    case EDQUOT:
    case EFBIG:
    case EIO: return {ErrorCode::disk_full, "", fmt::format("{}: the disk is full or can not be written", path), {path}};
    case EACCES:
    case EPERM:
    case EROFS:
    case ETXTBSY: return {ErrorCode::read_only, "", fmt::format("{}: the file can not be written", path), {path}};
    case EEXIST: return {ErrorCode::already_exists, "", fmt::format("{}: the file exists already", path), {path}};
    default: return {ErrorCode::not_found, "", fmt::format("{}: the file can not be made there", path), {path}};
  }
}

void drop_part(const std::string& path) { ::unlink(part_path(path).c_str()); }

Result<void> finish_part(const std::string& path) {
  const int descriptor = ::open(part_path(path).c_str(), O_WRONLY | O_CLOEXEC);
  if (descriptor < 0 || ::fsync(descriptor) != 0) return abandoned(descriptor, path);
  if (::close(descriptor) != 0) return abandoned(-1, path);
  if (!moved(part_path(path), path, true)) return abandoned(-1, path);
  return sync_folder_of(path);
}

Result<void> write_whole(const std::string& path, std::string_view bytes) {
  const int descriptor = ::open(part_path(path).c_str(), O_WRONLY | O_CREAT | O_TRUNC | O_CLOEXEC, 0666);
  if (descriptor < 0) return file_fault(errno, path);
  if (!write_all(descriptor, bytes)) return abandoned(descriptor, path);
  if (::close(descriptor) != 0) return abandoned(-1, path);
  return finish_part(path);
}

Result<void> move_into_place(const std::string& from, const std::string& to, bool replace) {
  if (!moved(from, to, replace)) return file_fault(errno, to);
  return sync_folder_of(to);
}

Result<void> change_places(const std::string& one, const std::string& other) {
  const auto change = [&]() -> Result<void> {
    if (exchanged(one, other)) return {};
    return not_known_here(errno) ? change_in_three_steps(one, other) : Result<void>(file_fault(errno, other));
  };
  PRILLBOOK_TRY(change());
  const auto synced = sync_folder_of(other);
  if (!synced) (void)change();
  return synced;
}

}  // namespace prillbook::store
