// SPDX-License-Identifier: GPL-3.0-or-later
// From records and results to the client summary. Pure: nothing is read, nothing is kept.
#pragma once

#include <optional>
#include <span>
#include <string>
#include <vector>

#include "core/issue/summaries.h"
#include "core/lab/settings.h"
#include "core/milling/milling_lots.h"
#include "core/results/run_controls.h"
#include "core/results/sample_result.h"
#include "core/summary/report.h"

namespace prillbook::summary {

// A finding as it is printed.
struct FindingLine {
  std::string rule;      // "leaking_bag"
  std::string severity;  // note, caution, stop
  std::string what, to_do;
  std::string answer;  // empty while it is open
};

struct SummarySample {
  results::SampleRecord record;
  results::SampleResult result;
  std::vector<FindingLine> findings;
  std::vector<Photograph> photographs = {};
  std::optional<milling::MillingLot> lot = {};  // where it stands for the head of one
  std::vector<results::RunControls> runs = {};  // the furnace loads of its charges that have controls or a decision
};

struct Issue {
  lab::Settings settings;
  Speech say;                                 // language of the pages, its decimal mark, the lab's own words
  Instant now;                                // date of issue
  std::string notebook_state;                 // history::hex(journal.head()); may be empty
  bool preliminary = false;                   // printed as such
  std::string number = {};                    // of the summary; empty: it has none
  bool draft = false;                         // numbered, not issued
  std::string title = {};                     // in the place of ours; the number is put behind it
  std::string remarks = {};                   // of the lab, a paragraph a line
  std::string amends = {}, amends_date = {};  // "26-S01" and "2026-05-12"; empty: none
  std::string what_changed = {}, why_amended = {};
  std::vector<std::string> hidden = {};  // names of parts that are not shown: issue::parts()
  issue::Price price = {};

  bool shows(std::string_view part) const;
};

// Samples in the order in which they are to stand; none gives a summary that says so.
Report build_report(std::span<const SummarySample> samples, const Issue& issue);

}  // namespace prillbook::summary
