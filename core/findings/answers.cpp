// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/findings/answers.h"

#include <fmt/format.h>

#include <algorithm>
#include <set>

#include "core/findings/statements.h"
#include "core/history/fields.h"

namespace prillbook::findings {
namespace {

std::string scopes_as_json(std::span<const SampleId> samples) {
  std::string list = "[";
  for (const SampleId sample : samples) list += fmt::format("{}\"{}\"", list.size() > 1 ? "," : "", scope_of(sample));
  return list + "]";
}

}  // namespace

Result<Answers> Answers::read(store::Connection& connection, std::span<const SampleId> samples) {
  Answers answers;
  const std::string scopes = scopes_as_json(samples);
  PRILLBOOK_TRY(connection.rows(sql::answers_of_scopes, {std::string_view(scopes)}, [&](const store::Row& row) {
    answers.by_scope_[row.text(0)].push_back(
        {row.text(1), row.text(2), {row.text(3), row.text(4), {row.integer(5), std::int32_t(row.integer(6))}}});
    return true;
  }));
  return answers;
}

const std::vector<Answers::Kept>& Answers::of(SampleId sample) const {
  static const std::vector<Kept> none;
  if (by_scope_.empty()) return none;
  const auto found = by_scope_.find(scope_of(sample));
  return found == by_scope_.end() ? none : found->second;
}

std::vector<OpenOrAnswered> Answers::beside(std::vector<Finding> findings) const {
  std::vector<OpenOrAnswered> list;
  for (Finding& finding : findings) {
    OpenOrAnswered entry{std::move(finding), {}};
    if (const auto& kept = of(entry.finding.sample); !kept.empty()) {
      const std::string evidence = entry.finding.evidence_hash();
      const auto it = std::find_if(kept.begin(), kept.end(),
                                   [&](const Kept& one) { return one.rule == entry.finding.rule && one.evidence == evidence; });
      if (it != kept.end()) entry.answer = it->answer;
    }
    list.push_back(std::move(entry));
  }
  return list;
}

std::vector<PastAnswer> Answers::past(SampleId sample, std::span<const OpenOrAnswered> standing) const {
  std::vector<PastAnswer> past;
  const auto& kept = of(sample);
  if (kept.empty()) return past;
  std::set<std::pair<std::string, std::string>> stand;
  for (const OpenOrAnswered& one : standing)
    if (one.answer) stand.emplace(one.finding.rule, one.finding.evidence_hash());
  for (const Kept& one : kept)
    if (!stand.contains({one.rule, one.evidence})) past.push_back({one.rule, one.answer});
  return past;
}

Result<std::vector<OpenOrAnswered>> with_answers(store::Connection& connection, SampleId sample, std::vector<Finding> findings) {
  PRILLBOOK_ASSIGN(const Answers answers, Answers::read(connection, {&sample, 1}));
  return answers.beside(std::move(findings));
}

Result<std::vector<PastAnswer>> past_answers(store::Connection& connection, SampleId sample,
                                             std::span<const OpenOrAnswered> standing) {
  PRILLBOOK_ASSIGN(const Answers answers, Answers::read(connection, {&sample, 1}));
  return answers.past(sample, standing);
}

Result<void> answer(history::Journal& journal, const Finding& finding, const std::string& explanation) {
  namespace f = history::fields::answer;
  return journal.record("answer finding", [&](history::ChangeSet& set) -> Result<void> {
    auto made = set.make(history::Entity::answer, {{f::rule, finding.rule},
                                                   {f::scope, finding.scope()},
                                                   {f::evidence, finding.evidence_hash()},
                                                   {f::explanation, readings::cell_of(std::optional(explanation))}});
    if (!made) return made.error();
    return {};
  });
}

}  // namespace prillbook::findings
