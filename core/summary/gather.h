// SPDX-License-Identifier: GPL-3.0-or-later
// From the notebook to a client summary, with the findings that stand and the answers given to them.
#pragma once

#include <span>

#include "core/store/connection.h"
#include "core/summary/summary.h"

namespace prillbook::summary {

// Errors: not_found; damaged where a record of the sample can't be read.
Result<SummarySample> gather(store::Connection& connection, SampleId sample);

// The summary of these samples as the notebook stands; `now` is the date of issue. Errors as gather.
Result<Report> report_of(store::Connection& connection, std::span<const SampleId> samples, const Instant& now);

}  // namespace prillbook::summary
