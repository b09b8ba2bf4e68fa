// SPDX-License-Identifier: GPL-3.0-or-later
// From the notebook to a client summary: what the window and the batch verb both call.
#pragma once

#include <span>

#include "core/summary/summary.h"

namespace prillbook::summary {

// Errors: not_found, damaged.
Result<SummarySample> gather(store::Connection& connection, SampleId id);
// Samples of one client in this order; none gives a summary that says so. Errors: as gather; conflict where they belong to
// several clients.
Result<Report> report_of(store::Connection& connection, std::span<const SampleId> ids, const Instant& now);

}  // namespace prillbook::summary
