// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/findings/finding.h"

#include <fmt/format.h>

#include <algorithm>

#include "core/findings/statements.h"
#include "core/history/chain.h"
#include "core/history/fields.h"

namespace prillbook::findings {
namespace {

constexpr std::optional<Finding> (*rules[])(const Scene&) = {
    gold_left_behind,
    pan_above_fire,
    short_on_arrival,
    leaking_bag,
    treated_apart,
    seal_not_whole,
    hand_over_gap,
    before_arrival,
    same_mark,
    pieces_missing,
    net_mass_differs,
    told_differs,
    step_loss,
    open_tree,
    small_portion,
    poor_split,
    uncleaned_machine,
    carry_over,
    out_of_order,
    sieve_loss,
    sieve_sum_above_portion,
    sieve_overload,
    sieve_p80,
    sieve_mixed_series,
    sieve_overdue,
    check_weight_failed,
    balance_not_checked,
    near_step,
    off_step,
    over_range,
    bead_moved,
    button_out_of_range,
    cupel_overloaded,
    fusion_doubtful,
    silver_to_gold_low,
    incomplete_parting,
    blank_high,
    lot_without_blank,
    pot_after_rich,
    pan_fire_fineness,
    pan_gold_open,
    mercury_not_told,
    metallics_share_high,
    panned_coarser,
    issued_changed,
    blank_outside,
    reference_outside,
    control_rule_broken,
    duplicate_outside,
    run_held,
    insertion_overdue,
};
constexpr std::optional<Finding> (*rules_about_now[])(const Scene&, const Instant&) = {
    overdue,
    retention_over,
    sieve_due,
};

}  // namespace

std::string_view severity_name(Severity severity) {
  switch (severity) {
    case Severity::note: return "note";
    case Severity::caution: return "caution";
    case Severity::stop: return "stop";
  }
  return "note";
}

std::string Finding::scope() const { return fmt::format("sample:{}", sample.value); }

std::string Finding::evidence_hash() const {
  std::string bytes = rule;
  for (const Evidence& one : evidence) bytes += fmt::format("\n{}={}", one.what, one.figure);
  return history::hex_digest(bytes);
}

std::vector<Finding> look(const Scene& scene, const std::optional<Instant>& now) {
  std::vector<Finding> found;
  for (const auto rule : rules)
    if (auto finding = rule(scene)) found.push_back(*std::move(finding));
  for (const auto rule : rules_about_now)
    if (auto finding = now ? rule(scene, *now) : std::nullopt) found.push_back(*std::move(finding));
  std::stable_sort(found.begin(), found.end(), [](const Finding& a, const Finding& b) { return a.severity > b.severity; });
  return found;
}

Result<std::vector<Finding>> look(store::Connection& connection, const results::SampleRecord& record,
                                  const results::SampleResult& result, const std::optional<Instant>& now) {
  PRILLBOOK_ASSIGN(const auto machines, results::machine_risks(connection, record, result));
  PRILLBOOK_ASSIGN(const auto issued, issue::changed_since_issue(connection, record));
  PRILLBOOK_ASSIGN(const auto quality, results::quality_beside(connection, record));
  return look({record, result, &machines, &issued, &quality}, now);
}

Result<std::vector<OpenOrAnswered>> with_answers(store::Connection& connection, std::vector<Finding> findings) {
  std::vector<OpenOrAnswered> list;
  for (Finding& finding : findings) {
    OpenOrAnswered entry{std::move(finding), {}};
    const std::string scope = entry.finding.scope(), hash = entry.finding.evidence_hash();
    PRILLBOOK_TRY(
        connection.rows(sql::answer_to, {std::string_view(scope), std::string_view(entry.finding.rule), std::string_view(hash)},
                        [&](const store::Row& row) {
                          entry.answer = Answer{row.text(0), row.text(1), {row.integer(2), std::int32_t(row.integer(3))}};
                          return false;
                        }));
    list.push_back(std::move(entry));
  }
  return list;
}

Result<std::vector<OpenOrAnswered>> findings_of(store::Connection& connection, SampleId sample,
                                                const std::optional<Instant>& now) {
  PRILLBOOK_ASSIGN(const results::SampleRecord record, results::load_sample_record(connection, sample));
  const results::SampleResult result = results::compute(record);
  PRILLBOOK_ASSIGN(auto found, look(connection, record, result, now));
  return with_answers(connection, std::move(found));
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
