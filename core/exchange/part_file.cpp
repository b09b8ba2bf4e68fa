// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/exchange/part_file.h"

#include <fcntl.h>
#include <fmt/format.h>
#include <sys/stat.h>
#include <unistd.h>

#include <cerrno>
#include <cstdio>

namespace prillbook::exchange {
namespace {

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
    default: return {ErrorCode::not_found, "", fmt::format("{}: the file can not be made there", path), {path}};
  }
}

void drop_part(const std::string& path) { ::unlink(part_path(path).c_str()); }

Result<void> finish_part(const std::string& path) {
  const int descriptor = ::open(part_path(path).c_str(), O_WRONLY | O_CLOEXEC);
  if (descriptor < 0 || ::fsync(descriptor) != 0) return abandoned(descriptor, path);
  if (::close(descriptor) != 0) return abandoned(-1, path);
  if (std::rename(part_path(path).c_str(), path.c_str()) != 0) return abandoned(-1, path);
  return {};
}

Result<void> write_whole(const std::string& path, std::string_view bytes) {
  const int descriptor = ::open(part_path(path).c_str(), O_WRONLY | O_CREAT | O_TRUNC | O_CLOEXEC, 0666);
  if (descriptor < 0) return file_fault(errno, path);
  if (!write_all(descriptor, bytes)) return abandoned(descriptor, path);
  if (::close(descriptor) != 0) return abandoned(-1, path);
  return finish_part(path);
}

}  // namespace prillbook::exchange
