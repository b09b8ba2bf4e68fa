// SPDX-License-Identifier: GPL-3.0-or-later
// A summary as plain JSON: the same words and figures as the page, the list and the spreadsheet.
#pragma once

#include <string>

#include "core/base/result.h"
#include "core/summary/report.h"

namespace prillbook::exchange {

// Keys are described in docs/exports.md. Figures are rounded as on the page; what was not measured has no key. The same
// report gives the same bytes.
std::string summary_json(const summary::Report& report);

// Errors: disk_full, read_only, not_found; a file of that name is then as it was.
Result<void> write_summary_json(const summary::Report& report, const std::string& path);

}  // namespace prillbook::exchange
