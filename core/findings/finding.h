// SPDX-License-Identifier: GPL-3.0-or-later
// Something the notebook noticed about a sample and can show the evidence for. Computed, never stored; only the
// answer that a person gives to it is kept, with the hash of the evidence that was answered.
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "core/history/catalogue.h"
#include "core/issue/basis.h"
#include "core/results/machine_books.h"
#include "core/results/quality_beside.h"

namespace prillbook::findings {

enum class Severity { note, caution, stop };
std::string_view severity_name(Severity severity);

// One number or word behind a finding, and the record it comes from.
struct Evidence {
  std::string what;
  std::string figure;
  history::Entity entity;
  RecordId record = 0;
};

std::string scope_of(SampleId sample);  // "sample:12"

struct Finding {
  std::string rule;  // stable name, "leaking_bag"
  Severity severity = Severity::note;
  SampleId sample;
  std::string seen;    // what, in one sentence with its numbers
  std::string why;     // why it matters
  std::string to_do;   // what to do about it
  std::string source;  // where the rule comes from, or "common practice"
  std::vector<Evidence> evidence;

  std::string scope() const { return scope_of(sample); }
  std::string evidence_hash() const;  // changes when the evidence does
};

struct Answer {
  std::string explanation;
  std::string who;
  Instant when;
};

struct OpenOrAnswered {
  Finding finding;
  std::optional<Answer> answer;  // of this very evidence
};

struct Scene {
  const results::SampleRecord& record;
  const results::SampleResult& result;
  const std::vector<results::MachineRisk>* machines = nullptr;  // of its steps on machines; nullptr: not looked at
  const std::vector<issue::ChangedReading>* issued = nullptr;   // behind issued summaries; nullptr: not looked at
  const results::QualityBeside* quality = nullptr;              // controls beside its tests; nullptr: not looked at
};

// One rule, a pure function in its own file.
std::optional<Finding> gold_left_behind(const Scene& scene);
std::optional<Finding> pan_above_fire(const Scene& scene);
std::optional<Finding> short_on_arrival(const Scene& scene);
std::optional<Finding> leaking_bag(const Scene& scene);
std::optional<Finding> treated_apart(const Scene& scene);
std::optional<Finding> step_loss(const Scene& scene);
std::optional<Finding> open_tree(const Scene& scene);
std::optional<Finding> small_portion(const Scene& scene);
std::optional<Finding> poor_split(const Scene& scene);
std::optional<Finding> uncleaned_machine(const Scene& scene);
std::optional<Finding> carry_over(const Scene& scene);
std::optional<Finding> out_of_order(const Scene& scene);
std::optional<Finding> sieve_loss(const Scene& scene);
std::optional<Finding> sieve_sum_above_portion(const Scene& scene);
std::optional<Finding> sieve_overload(const Scene& scene);
std::optional<Finding> sieve_p80(const Scene& scene);
std::optional<Finding> sieve_mixed_series(const Scene& scene);
std::optional<Finding> sieve_uneven(const Scene& scene);
std::optional<Finding> sieve_not_weighed(const Scene& scene);
std::optional<Finding> sieve_overdue(const Scene& scene);
std::optional<Finding> check_weight_failed(const Scene& scene);
std::optional<Finding> balance_not_checked(const Scene& scene);
std::optional<Finding> near_step(const Scene& scene);
std::optional<Finding> off_step(const Scene& scene);
std::optional<Finding> over_range(const Scene& scene);
std::optional<Finding> repeats_apart(const Scene& scene);
std::optional<Finding> bead_moved(const Scene& scene);
std::optional<Finding> button_out_of_range(const Scene& scene);
std::optional<Finding> cupel_overloaded(const Scene& scene);
std::optional<Finding> fusion_doubtful(const Scene& scene);
std::optional<Finding> silver_to_gold_low(const Scene& scene);
std::optional<Finding> incomplete_parting(const Scene& scene);
std::optional<Finding> blank_high(const Scene& scene);
std::optional<Finding> lot_without_blank(const Scene& scene);
std::optional<Finding> pot_after_rich(const Scene& scene);
std::optional<Finding> pan_fire_fineness(const Scene& scene);
std::optional<Finding> seal_not_whole(const Scene& scene);
std::optional<Finding> hand_over_gap(const Scene& scene);
std::optional<Finding> before_arrival(const Scene& scene);
std::optional<Finding> same_mark(const Scene& scene);
std::optional<Finding> pieces_missing(const Scene& scene);
std::optional<Finding> net_mass_differs(const Scene& scene);
std::optional<Finding> told_differs(const Scene& scene);
std::optional<Finding> pan_gold_open(const Scene& scene);
std::optional<Finding> mercury_not_told(const Scene& scene);
std::optional<Finding> metallics_share_high(const Scene& scene);
std::optional<Finding> panned_coarser(const Scene& scene);
std::optional<Finding> grind_above_top_size(const Scene& scene);
std::optional<Finding> issued_changed(const Scene& scene);
std::optional<Finding> duplicates_apart(const Scene& scene);
std::optional<Finding> silver_apart(const Scene& scene);
std::optional<Finding> fineness_perhaps_percent(const Scene& scene);
std::optional<Finding> fire_bead_pale(const Scene& scene);
std::optional<Finding> moisture_differs(const Scene& scene);
std::optional<Finding> moisture_not_found(const Scene& scene);
std::optional<Finding> moisture_not_written(const Scene& scene);
std::optional<Finding> heavier_than_declared(const Scene& scene);
std::optional<Finding> bead_above_free_gold(const Scene& scene);
std::optional<Finding> pan_mass_open(const Scene& scene);
std::optional<Finding> out_of_time(const Scene& scene);
std::optional<Finding> button_above_lead(const Scene& scene);
std::optional<Finding> figures_contradict(const Scene& scene);
std::optional<Finding> blank_outside(const Scene& scene);
std::optional<Finding> reference_outside(const Scene& scene);
std::optional<Finding> control_rule_broken(const Scene& scene);
std::optional<Finding> duplicate_outside(const Scene& scene);
std::optional<Finding> run_held(const Scene& scene);
std::optional<Finding> insertion_overdue(const Scene& scene);
// Rules about the day on which somebody looks.
std::optional<Finding> overdue(const Scene& scene, const Instant& now);
std::optional<Finding> retention_over(const Scene& scene, const Instant& now);
std::optional<Finding> sieve_due(const Scene& scene, const Instant& now);

// All rules, the most serious findings first; without `now` those that need no day.
std::vector<Finding> look(const Scene& scene, const std::optional<Instant>& now = std::nullopt);

// The same with what stands beside the sample: its machines, issued summaries, controls. Errors: not_found, damaged.
Result<std::vector<Finding>> look(store::Connection& connection, const results::SampleRecord& record,
                                  const results::SampleResult& result, const std::optional<Instant>& now = std::nullopt);

// Findings of a sample with the answers that stand. Errors: not_found, damaged.
Result<std::vector<OpenOrAnswered>> findings_of(store::Connection& connection, SampleId sample,
                                                const std::optional<Instant>& now = std::nullopt);

// Errors: missing_key without an explanation.
Result<void> answer(history::Journal& journal, const Finding& finding, const std::string& explanation);

}  // namespace prillbook::findings
