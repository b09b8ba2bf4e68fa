// SPDX-License-Identifier: GPL-3.0-or-later
// The readings that an issued summary rested on, and which of them are different now.
#pragma once

#include <set>
#include <span>
#include <string>
#include <vector>

#include "core/base/id.h"
#include "core/results/sample_record.h"

namespace prillbook::issue {

// A JSON object of what was read and how it was typed, with how the fineness was got and why a figure was left out. The
// same record gives the same text.
std::string basis_of(const results::SampleRecord& record);

struct ChangedReading {
  SummaryId summary;
  std::string number;  // of the summary
  std::string what;    // "26-0003/2, bead, weighing 1"
  std::string before;  // as the summary has it
  std::string now;     // empty: it is gone
};

// Issued summaries that no other took the place of, reading by reading. A test that came later changes nothing that was
// read; another weighing of a test that the summary speaks of does. Errors: damaged.
Result<std::vector<ChangedReading>> changed_since_issue(store::Connection& connection, const results::SampleRecord& record);

// Those of the samples that stand in an issued summary that no other took the place of.
Result<std::set<SampleId>> issued_among(store::Connection& connection, std::span<const SampleId> samples);

}  // namespace prillbook::issue
