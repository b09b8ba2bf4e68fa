// SPDX-License-Identifier: GPL-3.0-or-later
// The custody record of samples or of a whole consignment: who took it, where and when, in how many pieces under which
// seals it came, and every holder since, with lines to sign on. Holds what EPA Region V 905R78115 (1978) and ISO/IEC
// 17025:2017 7.4 and 7.8.2 name; a test holds the list against the paper.
#pragma once

#include <span>

#include "core/results/sample_record.h"
#include "core/summary/report.h"

namespace prillbook::summary {

// Samples of one consignment stand together. Errors: not_found, damaged; missing_key where no sample is named.
Result<Report> custody_report_of(store::Connection& connection, std::span<const SampleId> ids, const Instant& now);
// Every sample of it; one without samples still has its pieces and holders. Errors: not_found, damaged.
Result<Report> custody_report_of(store::Connection& connection, ConsignmentId id, const Instant& now);

}  // namespace prillbook::summary
