// SPDX-License-Identifier: GPL-3.0-or-later
// The summary as a spreadsheet: a sheet "Summary" with the figures of the page, and a sheet "Readings" with every figure
// as it was read.
#pragma once

#include <string>

#include "core/base/result.h"
#include "core/base/watch.h"
#include "core/summary/report.h"

namespace prillbook::exchange {

// Figures are number cells that hold the rounded value of the page, with as many decimals shown; their units stand in the
// header. Texts are text cells, whatever they begin with; longer ones are cut at what a cell can hold (32 767 characters).
// Errors: disk_full, read_only, not_found, with the path; cancelled; a file of that name is then as it was.
Result<void> write_xlsx(const summary::Report& report, const std::string& path, const Watch& watch = {});

}  // namespace prillbook::exchange
