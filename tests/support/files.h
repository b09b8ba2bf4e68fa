// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <unistd.h>

#include <cstddef>
#include <filesystem>
#include <fstream>
#include <string>

namespace prillbook::testing_support {

inline std::string file_text(const std::string& path) {
  std::ifstream file(path, std::ios::binary | std::ios::ate);
  if (!file) return "";
  std::string text(static_cast<std::size_t>(file.tellg()), '\0');
  file.seekg(0);
  file.read(text.data(), static_cast<std::streamsize>(text.size()));
  return text;
}

inline void write_file(const std::string& path, const std::string& text) {
  std::ofstream(path, std::ios::binary | std::ios::trunc) << text;
}

// For as long as it lives the folder can be written to but not opened. An administrator may open all: then another user,
// who owns the folder and what is in it, does the work.
class ClosedToReaders {
 public:
  explicit ClosedToReaders(std::filesystem::path folder) : folder_(std::move(folder)) {
    if (geteuid() == 0) {
      give_to(nobody);
      is_nobody_ = seteuid(nobody) == 0;
    }
    using std::filesystem::perms;
    std::filesystem::permissions(folder_, perms::owner_write | perms::owner_exec);
  }
  ~ClosedToReaders() {
    std::filesystem::permissions(folder_, std::filesystem::perms::owner_all);
    if (is_nobody_) (void)!seteuid(0);
  }
  ClosedToReaders(const ClosedToReaders&) = delete;
  ClosedToReaders& operator=(const ClosedToReaders&) = delete;

 private:
  static constexpr uid_t nobody = 65534;
  void give_to(uid_t user) {
    (void)!chown(folder_.c_str(), user, gid_t(-1));
    for (const auto& held : std::filesystem::recursive_directory_iterator(folder_))
      (void)!chown(held.path().c_str(), user, gid_t(-1));
  }

  std::filesystem::path folder_;
  bool is_nobody_ = false;
};

}  // namespace prillbook::testing_support
