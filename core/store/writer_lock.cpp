// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/store/writer_lock.h"

#include <fcntl.h>
#include <fmt/format.h>
#include <pwd.h>
#include <sys/file.h>
#include <sys/stat.h>
#include <unistd.h>

#include <array>
#include <cerrno>
#include <filesystem>

#include "core/base/text.h"

namespace prillbook::store {
namespace {

// A lock on a side file that its holder is just removing is tried again on the new one, this often at most.
constexpr int attempts = 50;

// The same notebook by another path, or through a link, has the same side file.
std::string side_file_of(const std::string& path) {
  std::error_code code;
  const auto real = std::filesystem::weakly_canonical(path, code);
  return (code ? path : real.string()) + ".lock";
}

// A lock of the open file description: it goes with the last copy of this descriptor and with nothing else. Where the
// file system has none, flock is much the same.
bool lock(int descriptor) {
  struct flock whole {};
  whole.l_type = F_WRLCK;
  whole.l_whence = SEEK_SET;
  if (fcntl(descriptor, F_OFD_SETLK, &whole) == 0) return true;
  if (errno != EINVAL && errno != ENOLCK && errno != EOPNOTSUPP) return false;
  return flock(descriptor, LOCK_EX | LOCK_NB) == 0;
}

bool is_still_at(int descriptor, const std::string& side_file) {
  struct stat held {
  }, there{};
  return fstat(descriptor, &held) == 0 && stat(side_file.c_str(), &there) == 0 && held.st_ino == there.st_ino &&
         held.st_dev == there.st_dev;
}

std::string user_name() {
  std::array<char, 4096> buffer{};
  struct passwd entry {};
  struct passwd* found = nullptr;
  if (getpwuid_r(geteuid(), &entry, buffer.data(), buffer.size(), &found) == 0 && found) return found->pw_name;
  return fmt::format("{}", geteuid());
}

std::string host_name() {
  std::array<char, 256> buffer{};
  return gethostname(buffer.data(), buffer.size() - 1) == 0 ? buffer.data() : "";
}

// The side file may hold anything; what is no plain line of text is left out of the message.
Holder read_holder(int descriptor) {
  std::array<char, 1024> buffer{};
  const auto count = pread(descriptor, buffer.data(), buffer.size(), 0);
  const std::string text(buffer.data(), count > 0 ? static_cast<std::size_t>(count) : 0);
  std::array<std::string, 4> lines;
  std::size_t start = 0;
  for (std::string& line : lines) {
    const auto end = text.find('\n', start);
    if (end == std::string::npos) break;
    line = text.substr(start, end - start);
    start = end + 1;
    if (!is_utf8(line) || line.find_first_of("\r\t\x1b\x7f") != std::string::npos) line.clear();
  }
  return {lines[0], lines[1], lines[2], lines[3]};
}

void write_holder(int descriptor, const Instant& since) {
  const std::string text = fmt::format("{}\n{}\n{}\n{}\n", user_name(), host_name(), getpid(), to_iso(since));
  // A full disk costs the message only.
  if (ftruncate(descriptor, 0) == 0) (void)!pwrite(descriptor, text.data(), text.size(), 0);
}

Error held_by_another(const std::string& path, const Holder& holder) {
  std::string who = holder.user.empty()
                        ? std::string("another window")
                        : fmt::format("{} on {} (process {}, since {})", holder.user, holder.host, holder.pid, holder.since);
  return {ErrorCode::locked,
          "",
          fmt::format("{}: the notebook is open for writing by {}", path, who),
          {path, holder.user, holder.host, holder.pid, holder.since}};
}

Error held_elsewhere(const std::string& path, const std::string& side_file, const Holder& holder) {
  Error error = held_by_another(path, holder);
  error.field = "elsewhere";
  error.detail += fmt::format("; if it is no longer open there, remove {}", side_file);
  return error;
}

// Whether the side file was written on another machine.
bool is_elsewhere(const Holder& holder) { return !holder.host.empty() && holder.host != host_name(); }

Error can_not_open(const std::string& side_file, int reason) {
  const ErrorCode code = reason == ENOENT || reason == ENOTDIR  ? ErrorCode::not_found
                         : reason == ENOSPC || reason == EDQUOT ? ErrorCode::disk_full
                                                                : ErrorCode::read_only;
  return {code, "", fmt::format("{}: the side file can not be written (system error {})", side_file, reason), {side_file}};
}

}  // namespace

Result<std::unique_ptr<WriterLock>> WriterLock::take(const std::string& path, const Instant& since, TakeOver take_over) {
  const std::string side_file = side_file_of(path);
  for (int attempt = 0; attempt < attempts; ++attempt) {
    const int descriptor = open(side_file.c_str(), O_RDWR | O_CREAT | O_CLOEXEC | O_NOFOLLOW | O_NONBLOCK, 0666);
    if (descriptor < 0) return can_not_open(side_file, errno);
    if (!lock(descriptor)) {
      const Holder holder = read_holder(descriptor);
      close(descriptor);
      return held_by_another(path, holder);
    }
    if (is_still_at(descriptor, side_file)) {
      const Holder holder = read_holder(descriptor);
      if (take_over == TakeOver::from_this_machine && is_elsewhere(holder)) {
        close(descriptor);
        return held_elsewhere(path, side_file, holder);
      }
      write_holder(descriptor, since);
      return std::unique_ptr<WriterLock>(new WriterLock(descriptor, side_file));
    }
    close(descriptor);
  }
  return held_by_another(path, {});
}

WriterLock::~WriterLock() {
  // Removed while still locked: whoever locks the old file afterwards finds that it is no longer the one at its path.
  if (is_still_at(descriptor_, side_file_)) unlink(side_file_.c_str());
  close(descriptor_);
}

}  // namespace prillbook::store
