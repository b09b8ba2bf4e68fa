// SPDX-License-Identifier: GPL-3.0-or-later
// From records and results to the client summary. Pure: nothing is read, nothing is kept.
#pragma once

#include <span>
#include <string>
#include <vector>

#include "core/lab/settings.h"
#include "core/results/sample_result.h"
#include "core/summary/report.h"

namespace prillbook::summary {

// A finding as it is printed.
struct FindingLine {
  std::string severity;  // note, caution, stop
  std::string what, to_do;
  std::string answer;  // empty while it is open
};

struct SummarySample {
  results::SampleRecord record;
  results::SampleResult result;
  std::vector<FindingLine> findings;
};

struct Issue {
  lab::Settings settings;
  Instant now;                 // date of issue
  std::string notebook_state;  // history::hex(journal.head()); may be empty
  bool preliminary = false;    // printed as such
};

// Samples in the order in which they are to stand; none gives a summary that says so.
Report build_report(std::span<const SummarySample> samples, const Issue& issue);

}  // namespace prillbook::summary
