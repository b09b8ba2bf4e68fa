// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/summary/gather.h"

#include "core/findings/finding.h"
#include "core/history/journal.h"

namespace prillbook::summary {

Result<SummarySample> gather(store::Connection& connection, SampleId sample) {
  SummarySample gathered;
  PRILLBOOK_ASSIGN(gathered.record, results::load_sample_record(connection, sample));
  gathered.result = results::compute(gathered.record);
  PRILLBOOK_ASSIGN(const auto standing, findings::with_answers(connection, findings::look({gathered.record, gathered.result})));
  for (const auto& [finding, answer] : standing)
    gathered.findings.push_back({std::string(findings::severity_name(finding.severity)), finding.seen, finding.to_do,
                                 answer ? answer->explanation : std::string()});
  return gathered;
}

Result<Report> report_of(store::Connection& connection, std::span<const SampleId> samples, const Instant& now) {
  Issue issue;
  PRILLBOOK_ASSIGN(issue.settings, lab::settings(connection));
  issue.now = now;
  SteppingClock clock(now);
  PRILLBOOK_ASSIGN(const auto journal, history::Journal::open(connection, clock));
  issue.notebook_state = history::hex(journal->head());
  std::vector<SummarySample> gathered;
  for (const SampleId sample : samples) {
    PRILLBOOK_ASSIGN(SummarySample one, gather(connection, sample));
    gathered.push_back(std::move(one));
  }
  return build_report(gathered, issue);
}

}  // namespace prillbook::summary
