// SPDX-License-Identifier: GPL-3.0-or-later
// Settings and kept drafts of one test, apart from those of any other and of the person who runs it.
#pragma once

#include <cstdlib>
#include <optional>
#include <string>
#include <utility>
#include <vector>

#include "tests/support/notebook.h"

namespace prillbook::program {

class OwnHome {
 public:
  explicit OwnHome(const testing_support::TempFolder& folder) {
    for (const char* name : {"XDG_STATE_HOME", "XDG_CONFIG_HOME", "XDG_DATA_HOME"}) {
      const char* value = std::getenv(name);
      before_.emplace_back(name, value ? std::optional<std::string>(value) : std::nullopt);
      setenv(name, folder.path().c_str(), 1);
    }
  }
  ~OwnHome() {
    for (const auto& [name, value] : before_) value ? setenv(name, value->c_str(), 1) : unsetenv(name);
  }
  OwnHome(const OwnHome&) = delete;
  OwnHome& operator=(const OwnHome&) = delete;

 private:
  std::vector<std::pair<const char*, std::optional<std::string>>> before_;
};

}  // namespace prillbook::program
