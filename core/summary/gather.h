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

// A numbered summary as it would be issued now.
struct Numbered {
  Report report;
  std::string held_back;           // the open finding that stops, in words; empty: it can be issued as it is
  std::vector<std::string> bases;  // of its samples: see core/issue/basis.h
};
// Errors: as report_of.
Result<Numbered> report_of_summary(store::Connection& connection, const issue::Summary& summary, const Instant& now);

}  // namespace prillbook::summary
