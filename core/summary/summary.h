// SPDX-License-Identifier: GPL-3.0-or-later
// From records and results to the client summary. Pure: nothing is read, nothing is kept.
#pragma once

#include <span>
#include <string>
#include <vector>

#include "core/issue/summaries.h"
#include "core/lab/settings.h"
#include "core/results/run_controls.h"
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
  std::vector<Photograph> photographs = {};
  std::vector<results::RunControls> runs = {};  // the furnace loads of its charges that have controls or a decision
};

struct Issue {
  lab::Settings settings;
  Instant now;                 // date of issue
  std::string notebook_state;  // history::hex(journal.head()); may be empty
  bool preliminary = false;    // printed as such
  std::string number = {};     // of the summary; empty: it has none
  bool draft = false;          // numbered, not issued
  std::string amends = {};     // "26-S01 of 2026-05-12"; empty: none
  std::string what_changed = {}, why_amended = {};
  std::vector<std::string> hidden = {};  // names of parts that are not shown: issue::parts()
  issue::Price price = {};

  bool shows(std::string_view part) const;
};

// Samples in the order in which they are to stand; none gives a summary that says so.
Report build_report(std::span<const SummarySample> samples, const Issue& issue);

}  // namespace prillbook::summary
