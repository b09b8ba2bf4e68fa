// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/store/place.h"

#include <sys/vfs.h>

#include <algorithm>
#include <array>
#include <filesystem>

namespace prillbook::store {
namespace {

// f_type of statfs(2), from its manual page and linux/magic.h: NFS, SMB, CIFS, SMB2, 9P, AFS, Coda, Ceph, FUSE.
constexpr std::array<unsigned long, 9> shares{0x6969,     0x517B,     0xFF534D42, 0xFE534D42, 0x01021997,
                                              0x5346414F, 0x73757245, 0x00C36400, 0x65735546};

}  // namespace

bool is_share(long file_system) {
  // The number is 32 bits wide, whatever the machine makes of its sign.
  const auto number = static_cast<unsigned long>(file_system) & 0xFFFF'FFFFUL;
  return std::find(shares.begin(), shares.end(), number) != shares.end();
}

bool lies_on_a_share(const std::string& path) {
  struct statfs held {};
  if (statfs(path.c_str(), &held) == 0) return is_share(static_cast<long>(held.f_type));
  const std::string folder = std::filesystem::path(path).parent_path().string();
  return statfs(folder.empty() ? "." : folder.c_str(), &held) == 0 && is_share(static_cast<long>(held.f_type));
}

}  // namespace prillbook::store
