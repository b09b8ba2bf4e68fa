// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <string>

#include "core/base/result.h"
#include "core/upkeep/salvage.h"

namespace prillbook::upkeep {

// Copies the file `from` to the new file `to` and mends the first 100 bytes there: all but the counters are the same in
// every notebook. What was mended is told. Gives the version of the schema, the newest where it does not read. Errors:
// not_found, disk_full, read_only; not_a_notebook for a file without one page.
Result<int> mend_head(const std::string& from, const std::string& to, Salvaged& report);

}  // namespace prillbook::upkeep
