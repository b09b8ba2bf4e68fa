// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <string_view>

namespace prillbook::store {

// A statement of a statements.sql file. Only such constants can be prepared: no SQL is put together at run time
// outside core/history, which derives its statements from the catalogue.
struct Sql {
  std::string_view name;
  const char* text;
};

}  // namespace prillbook::store
