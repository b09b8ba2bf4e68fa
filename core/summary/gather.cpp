// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/summary/gather.h"

#include <algorithm>

#include "core/attachments/attachments.h"
#include "core/findings/answers.h"
#include "core/history/journal.h"
#include "core/issue/basis.h"
#include "core/lab/own_texts.h"
#include "core/results/quality_beside.h"

namespace prillbook::summary {

Result<SummarySample> gather(store::Connection& connection, SampleId id) {
  SummarySample sample;
  PRILLBOOK_ASSIGN(sample.record, results::load_sample_record(connection, id));
  sample.result = results::compute(sample.record);
  PRILLBOOK_ASSIGN(auto seen, findings::look(connection, sample.record, sample.result));
  PRILLBOOK_ASSIGN(sample.lot, milling::lot_of(connection, id));
  PRILLBOOK_ASSIGN(auto quality, results::quality_beside(connection, sample.record));
  sample.runs = std::move(quality.runs);
  PRILLBOOK_ASSIGN(const auto found, findings::with_answers(connection, sample.record.sample.id, std::move(seen)));
  for (const findings::OpenOrAnswered& one : found)
    sample.findings.push_back({one.finding.rule, std::string(findings::severity_name(one.finding.severity)), one.finding.seen,
                               one.finding.to_do, one.answer ? one.answer->explanation : std::string()});
  return sample;
}

namespace {

Result<void> gather_next(store::Connection& connection, std::span<const SampleId> ids, std::vector<SummarySample>& samples) {
  PRILLBOOK_ASSIGN(SummarySample sample, gather(connection, ids[samples.size()]));
  if (!samples.empty() && sample.record.client.id != samples.front().record.client.id)
    return refusal(ErrorCode::conflict, "sample",
                   sample.record.sample.number + " is another client's than " + samples.front().record.sample.number +
                       ": a summary goes to one client");
  samples.push_back(std::move(sample));
  return {};
}

Result<Issue> issue_at(store::Connection& connection, std::span<const SummarySample> samples, const issue::Summary& summary,
                       const Instant& now) {
  Issue issue;
  PRILLBOOK_ASSIGN(issue.settings, lab::settings(connection));
  const lab::Client client = samples.empty() ? lab::Client() : samples.front().record.client;
  const wording::Language language = lab::language_for(issue.settings, client, summary.language);
  PRILLBOOK_ASSIGN(issue.say, lab::speech_in(connection, issue.settings, language));
  PRILLBOOK_ASSIGN(const history::Hash head, history::head_of(connection));
  issue.now = now;
  issue.notebook_state = history::hex(head);
  return issue;
}

bool stops(const FindingLine& finding) { return finding.severity == findings::severity_name(findings::Severity::stop); }

// A finding that stops and is open holds a summary back; issued over it, it is preliminary. Its answer is printed otherwise.
void judge(std::span<const SummarySample> samples, Issue& issue, std::string& held_back) {
  for (const SummarySample& sample : samples)
    for (const FindingLine& finding : sample.findings) {
      if (!stops(finding) || !finding.answer.empty()) continue;
      issue.preliminary = true;
      if (held_back.empty()) held_back = sample.record.sample.number + ": " + finding.what;
    }
}

Result<void> add_photographs(store::Connection& connection, SummarySample& sample) {
  PRILLBOOK_ASSIGN(const auto found, attachments::attachments_of(connection, {sample.record.sample.id, {}}));
  for (const attachments::Attachment& one : found) {
    PRILLBOOK_ASSIGN(std::string bytes, attachments::bytes_of(connection, one));
    sample.photographs.push_back(
        {std::move(bytes), one.caption.value_or(one.kind.value_or("")), one.hash, one.width, one.height});
  }
  return {};
}

}  // namespace

Result<Report> report_of(store::Connection& connection, std::span<const SampleId> ids, const Instant& now,
                         const std::optional<std::string>& language) {
  std::vector<SummarySample> samples;
  while (samples.size() < ids.size()) PRILLBOOK_TRY(gather_next(connection, ids, samples));
  issue::Summary summary;
  summary.language = language;
  PRILLBOOK_ASSIGN(Issue issue, issue_at(connection, samples, summary, now));
  std::string held_back;
  judge(samples, issue, held_back);
  return build_report(samples, issue);
}

Result<bool> Gathering::step() {
  if (done() == total()) return true;
  PRILLBOOK_TRY(gather_next(connection_, summary_.samples, samples_));
  const bool photographs = std::find(summary_.hidden.begin(), summary_.hidden.end(), "photographs") == summary_.hidden.end();
  if (photographs) PRILLBOOK_TRY(add_photographs(connection_, samples_.back()));
  return done() == total();
}

Result<Numbered> Gathering::finish(const Instant& now) const {
  PRILLBOOK_ASSIGN(Issue issue, issue_at(connection_, samples_, summary_, now));
  Numbered numbered;
  judge(samples_, issue, numbered.held_back);
  issue.number = summary_.number;
  issue.draft = !summary_.number.empty() && !summary_.is_issued();
  issue.hidden = summary_.hidden;
  issue.price = summary_.price;
  issue.title = summary_.title.value_or("");
  issue.remarks = summary_.remarks.value_or("");
  if (summary_.amends) {
    PRILLBOOK_ASSIGN(const issue::Summary old, issue::summary(connection_, summary_.amends));
    issue.amends = old.number;
    issue.amends_date = local_date(old.issued_at.value_or(old.begun_at));
    issue.what_changed = summary_.what_changed.value_or("");
    issue.why_amended = summary_.why_amended.value_or("");
  }
  for (const SummarySample& sample : samples_) numbered.bases.push_back(issue::basis_of(sample.record));
  numbered.report = build_report(samples_, issue);
  return numbered;
}

Result<Numbered> report_of_summary(store::Connection& connection, const issue::Summary& summary, const Instant& now) {
  Gathering gathering(connection, summary);
  for (;;) {
    PRILLBOOK_ASSIGN(const bool all, gathering.step());
    if (all) return gathering.finish(now);
  }
}

}  // namespace prillbook::summary
