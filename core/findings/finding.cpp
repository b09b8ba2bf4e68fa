// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/findings/finding.h"

#include <fmt/format.h>

#include <algorithm>

#include "core/findings/answers.h"
#include "core/findings/board.h"
#include "core/history/chain.h"

namespace prillbook::findings {
namespace {

struct Rule {
  std::string_view name;
  std::optional<Finding> (*look)(const Scene&);
};
struct RuleAboutNow {
  std::string_view name;
  std::optional<Finding> (*look)(const Scene&, const Instant&);
};

// A rule has the name of its function.
#define PRILLBOOK_RULE(name) \
  { #name, name }
constexpr Rule rules[] = {
    PRILLBOOK_RULE(gold_left_behind),
    PRILLBOOK_RULE(pan_above_fire),
    PRILLBOOK_RULE(short_on_arrival),
    PRILLBOOK_RULE(leaking_bag),
    PRILLBOOK_RULE(treated_apart),
    PRILLBOOK_RULE(seal_not_whole),
    PRILLBOOK_RULE(hand_over_gap),
    PRILLBOOK_RULE(before_arrival),
    PRILLBOOK_RULE(same_mark),
    PRILLBOOK_RULE(pieces_missing),
    PRILLBOOK_RULE(net_mass_differs),
    PRILLBOOK_RULE(told_differs),
    PRILLBOOK_RULE(step_loss),
    PRILLBOOK_RULE(open_tree),
    PRILLBOOK_RULE(small_portion),
    PRILLBOOK_RULE(poor_split),
    PRILLBOOK_RULE(uncleaned_machine),
    PRILLBOOK_RULE(carry_over),
    PRILLBOOK_RULE(out_of_order),
    PRILLBOOK_RULE(sieve_loss),
    PRILLBOOK_RULE(sieve_sum_above_portion),
    PRILLBOOK_RULE(sieve_overload),
    PRILLBOOK_RULE(sieve_p80),
    PRILLBOOK_RULE(sieve_mixed_series),
    PRILLBOOK_RULE(sieve_uneven),
    PRILLBOOK_RULE(sieve_not_weighed),
    PRILLBOOK_RULE(sieve_overdue),
    PRILLBOOK_RULE(check_weight_failed),
    PRILLBOOK_RULE(balance_not_checked),
    PRILLBOOK_RULE(near_step),
    PRILLBOOK_RULE(off_step),
    PRILLBOOK_RULE(over_range),
    PRILLBOOK_RULE(repeats_apart),
    PRILLBOOK_RULE(bead_moved),
    PRILLBOOK_RULE(button_out_of_range),
    PRILLBOOK_RULE(cupel_overloaded),
    PRILLBOOK_RULE(fusion_doubtful),
    PRILLBOOK_RULE(silver_to_gold_low),
    PRILLBOOK_RULE(incomplete_parting),
    PRILLBOOK_RULE(blank_high),
    PRILLBOOK_RULE(lot_without_blank),
    PRILLBOOK_RULE(pot_after_rich),
    PRILLBOOK_RULE(pan_fire_fineness),
    PRILLBOOK_RULE(pan_gold_open),
    PRILLBOOK_RULE(mercury_not_told),
    PRILLBOOK_RULE(metallics_share_high),
    PRILLBOOK_RULE(panned_coarser),
    PRILLBOOK_RULE(grind_above_top_size),
    PRILLBOOK_RULE(issued_changed),
    PRILLBOOK_RULE(duplicates_apart),
    PRILLBOOK_RULE(silver_apart),
    PRILLBOOK_RULE(fineness_perhaps_percent),
    PRILLBOOK_RULE(fire_bead_pale),
    PRILLBOOK_RULE(moisture_differs),
    PRILLBOOK_RULE(moisture_not_found),
    PRILLBOOK_RULE(moisture_not_written),
    PRILLBOOK_RULE(heavier_than_declared),
    PRILLBOOK_RULE(bead_above_free_gold),
    PRILLBOOK_RULE(pan_mass_open),
    PRILLBOOK_RULE(out_of_time),
    PRILLBOOK_RULE(button_above_lead),
    PRILLBOOK_RULE(figures_contradict),
    PRILLBOOK_RULE(blank_outside),
    PRILLBOOK_RULE(reference_outside),
    PRILLBOOK_RULE(control_rule_broken),
    PRILLBOOK_RULE(duplicate_outside),
    PRILLBOOK_RULE(run_held),
    PRILLBOOK_RULE(insertion_overdue),
};
constexpr RuleAboutNow rules_about_now[] = {
    PRILLBOOK_RULE(overdue),
    PRILLBOOK_RULE(retention_over),
    PRILLBOOK_RULE(sieve_due),
};
#undef PRILLBOOK_RULE

}  // namespace

std::string_view severity_name(Severity severity) {
  switch (severity) {
    case Severity::note: return "note";
    case Severity::caution: return "caution";
    case Severity::stop: return "stop";
  }
  return "note";
}

std::string scope_of(SampleId sample) { return fmt::format("sample:{}", sample.value); }

std::string Finding::evidence_hash() const {
  std::string bytes = rule;
  for (const Evidence& one : evidence) bytes += fmt::format("\n{}={}", one.what, one.figure);
  return history::hex_digest(bytes);
}

std::vector<Finding> look(const Scene& scene, const std::optional<Instant>& now) {
  std::vector<Finding> found;
  for (const Rule& rule : rules)
    if (auto finding = rule.look(scene)) found.push_back(*std::move(finding));
  for (const RuleAboutNow& rule : rules_about_now)
    if (auto finding = now ? rule.look(scene, *now) : std::nullopt) found.push_back(*std::move(finding));
  std::stable_sort(found.begin(), found.end(), [](const Finding& a, const Finding& b) { return a.severity > b.severity; });
  return found;
}

std::span<const std::string_view> rule_names() {
  static const std::vector<std::string_view> names = [] {
    std::vector<std::string_view> list;
    for (const Rule& rule : rules) list.push_back(rule.name);
    for (const RuleAboutNow& rule : rules_about_now) list.push_back(rule.name);
    return list;
  }();
  return names;
}

Result<std::vector<Finding>> look(store::Connection& connection, const results::SampleRecord& record,
                                  const results::SampleResult& result, const std::optional<Instant>& now) {
  results::MachineBooks books(connection, record.settings);
  PRILLBOOK_ASSIGN(const auto machines, results::machine_risks(books, record, result));
  PRILLBOOK_ASSIGN(const auto issued, issue::changed_since_issue(connection, record));
  PRILLBOOK_ASSIGN(const auto quality, results::quality_beside(connection, record));
  return look({record, result, &machines, &issued, &quality}, now);
}

Result<std::vector<OpenOrAnswered>> findings_of(store::Connection& connection, SampleId sample,
                                                const std::optional<Instant>& now) {
  PRILLBOOK_ASSIGN(const results::SampleRecord record, results::load_sample_record(connection, sample));
  const results::SampleResult result = results::compute(record);
  PRILLBOOK_ASSIGN(auto found, look(connection, record, result, now));
  return with_answers(connection, sample, std::move(found));
}

}  // namespace prillbook::findings
