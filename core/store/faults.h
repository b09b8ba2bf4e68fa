// SPDX-License-Identifier: GPL-3.0-or-later
// SQLite's result codes as ours.
#pragma once

#include <SQLiteCpp/Exception.h>

#include <string>

#include "core/base/result.h"

namespace prillbook::store {

// `path` names the file in the message.
Error fault(const SQLite::Exception& exception, const std::string& path);

// Runs `action`, which may throw SQLite::Exception, and gives its value or the mapped error.
template <class Action>
auto guarded(const std::string& path, Action&& action) -> Result<decltype(action())> {
  try {
    if constexpr (std::is_void_v<decltype(action())>) {
      action();
      return {};
    } else {
      return action();
    }
  } catch (const SQLite::Exception& exception) {
    return fault(exception, path);
  }
}

}  // namespace prillbook::store
