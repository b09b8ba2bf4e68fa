// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/summary/gather.h"

#include "core/findings/finding.h"
#include "core/history/journal.h"

namespace prillbook::summary {

Result<SummarySample> gather(store::Connection& connection, SampleId id) {
  SummarySample sample;
  PRILLBOOK_ASSIGN(sample.record, results::load_sample_record(connection, id));
  sample.result = results::compute(sample.record);
  PRILLBOOK_ASSIGN(auto seen, findings::look(connection, sample.record, sample.result));
  PRILLBOOK_ASSIGN(const auto found, findings::with_answers(connection, std::move(seen)));
  for (const findings::OpenOrAnswered& one : found)
    sample.findings.push_back({std::string(findings::severity_name(one.finding.severity)), one.finding.seen, one.finding.to_do,
                               one.answer ? one.answer->explanation : std::string()});
  return sample;
}

Result<Report> report_of(store::Connection& connection, std::span<const SampleId> ids, const Instant& now) {
  std::vector<SummarySample> samples;
  for (const SampleId id : ids) {
    PRILLBOOK_ASSIGN(SummarySample sample, gather(connection, id));
    if (!samples.empty() && sample.record.client.id != samples.front().record.client.id)
      return refusal(ErrorCode::conflict, "sample",
                     sample.record.sample.number + " is another client's than " + samples.front().record.sample.number +
                         ": a summary goes to one client");
    samples.push_back(std::move(sample));
  }
  Issue issue;
  PRILLBOOK_ASSIGN(issue.settings, lab::settings(connection));
  PRILLBOOK_ASSIGN(const history::Hash head, history::head_of(connection));
  issue.now = now;
  issue.notebook_state = history::hex(head);
  return build_report(samples, issue);
}

}  // namespace prillbook::summary
