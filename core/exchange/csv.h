// SPDX-License-Identifier: GPL-3.0-or-later
// Lists of comma-separated values by RFC 4180: CRLF, a header, quotes where a field needs them. UTF-8, decimal point.
#pragma once

#include <span>
#include <string>
#include <string_view>

#include "core/base/result.h"
#include "core/summary/report.h"

namespace prillbook::exchange {

// A text that a spreadsheet would run (one that begins with = + - @, a tab or a line end) gets an apostrophe before it.
std::string not_run(std::string_view text);

// One record with its line end; fields are taken as they are and quoted where they hold a comma, a quote or a line end.
std::string csv_record(std::span<const std::string> fields);

// One line a test and one a mean, columns as in docs/exports.md; in another language than English their
// headings are those of the spreadsheet. Only texts are guarded by not_run(); numbers are numbers.
std::string csv_text(const summary::Report& report);

// Errors: disk_full, read_only, not_found, with the path; a file of that name is then as it was.
Result<void> write_csv(const summary::Report& report, const std::string& path);

}  // namespace prillbook::exchange
