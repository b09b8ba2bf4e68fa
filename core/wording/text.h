// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <string_view>

namespace prillbook::wording {

// One text of the client's pages. `{name}` stands for what is put in; both languages name the same.
struct Text {
  std::string_view key, english, spanish;
  bool own = true;  // a lab may put its own words there
};

}  // namespace prillbook::wording
