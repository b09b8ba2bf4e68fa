// SPDX-License-Identifier: GPL-3.0-or-later
// The JSON format `notebook`: everything a notebook holds, the history verbatim. It holds no path and no time of the
// dump, so an unchanged notebook gives the same bytes. Key by key in docs/notebook-file.md.
#pragma once

#include <functional>
#include <istream>
#include <string>
#include <string_view>

#include "core/base/result.h"
#include "core/store/connection.h"

namespace prillbook::exchange {

inline constexpr std::string_view notebook_format = "notebook";
inline constexpr std::int64_t notebook_format_version = 1;

// Takes the next piece of the text; an error ends the dump.
using DumpSink = std::function<Result<void>(std::string_view)>;

// Writes the dump piece by piece, on one snapshot. Errors: newer_version, inconsistent (an old schema with columns that
// are no longer known: migrate it first), damaged (text that is no UTF-8), and what the sink says.
Result<void> dump_notebook(store::Connection& connection, const DumpSink& sink);
// The whole text; for notebooks that fit in memory twice.
Result<std::string> dump_notebook(store::Connection& connection);

// Makes the notebook of a dump in a new file, whose dump is the given one. It is put at `path` only after the whole
// check; an error leaves nothing there. Errors: already_exists, malformed_json, unknown_key, missing_key, wrong_type,
// out_of_range, newer_version, inconsistent (references, hashes or tables that contradict the history; the field names
// the place), disk_full, read_only, not_found (folder).
Result<void> restore_notebook(std::istream& dump, const std::string& path);
Result<void> restore_notebook(std::string_view dump, const std::string& path);

}  // namespace prillbook::exchange
