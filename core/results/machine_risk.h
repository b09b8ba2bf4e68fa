// SPDX-License-Identifier: GPL-3.0-or-later
// What the machines that a sample went through may have added to it, and the order in which waiting samples should go.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "core/milling/machines.h"
#include "core/milling/plans.h"
#include "core/preparation/crushing_order.h"
#include "core/results/sample_result.h"

namespace prillbook::results {

enum class GradeBasis { assayed, panned, expected, unknown };

// The best that is known of a sample's gold: its fire assay, else its leading pan test, else the free gold drawn off in
// the pan, else its expected class by the lab's settings; of nothing at all, the ordinary class.
struct LikelyGrade {
  Grade grade;
  GradeBasis basis = GradeBasis::unknown;
  Grade u;  // standard uncertainty, where it was assayed
};
LikelyGrade likely_grade(const SampleRecord& record, const SampleResult& result);
LikelyGrade grade_of_class(const std::optional<std::string>& expected, const lab::Settings& settings);
Result<LikelyGrade> likely_grade(store::Connection& connection, SampleId sample, const lab::Settings& settings);

enum class HoldUpOrigin { flushes, machine, setting, none };

// What a machine held at one moment.
struct MachineState {
  milling::Machine machine;
  HoldUp holdup;  // u is 0 where it was not learned
  HoldUpOrigin origin = HoldUpOrigin::none;
  int flushes = 0;               // that it was learned from
  bool cleaning_logged = false;  // at least once by then: else the risk is not judged
  Held held;
  struct Before {
    milling::Step step;
    std::string number;
    LikelyGrade grade;
  };
  std::vector<Before> before;                // uses that count, oldest first
  std::vector<milling::Cleaning> cleanings;  // since the last of them
};

// By the uses and cleanings before `at`; `except` is a use that does not count. The eight uses before are looked at:
// nothing to speak of is left of earlier rock. A use that was not weighed counts as 1 kg.
Result<MachineState> machine_state(store::Connection& connection, MachineId machine, const Instant& at, StepId except = {});

// One step of a sample on a machine.
struct MachineRisk {
  milling::Step step;
  MachineState state;   // before the step
  bool judged = false;  // false: no cleaning was ever logged, no mass, nothing before, or no hold-up
  LikelyGrade own;
  CarryOverResult carried;
  double pct = 0;      // of its own grade, or of the floor
  bool above = false;  // the lab's limit
  bool uncleaned_since_richer = false;
  std::optional<milling::Plan> plan;   // in force when it was done, with this sample in it
  std::string should_have_gone_first;  // number of a sample that stood before it and had not been through
  std::int64_t flushes_owed = 0, flushes_done = 0;
};
Result<std::vector<MachineRisk>> machine_risks(store::Connection& connection, const SampleRecord& record,
                                               const SampleResult& result);

struct ProposedPlace {
  OrderedRock rock;
  custody::SampleLine sample;
  LikelyGrade grade;
  Mass mass;
  std::optional<Instant> due;
  bool mass_known = false;
};
struct ProposedOrder {
  MachineState state;
  std::vector<ProposedPlace> places;
  Mass flush_total, arrival_flush_total;
  Mass flush;  // of one
};

// The samples that wait for the machine, in the order in which they should go; those due by `urgent_until` first.
// Errors: not_found; conflict where the machine is retired; damaged where a sample can't be read.
Result<ProposedOrder> propose_order(store::Connection& connection, MachineId machine, const Instant& now,
                                    const std::optional<Instant>& urgent_until = {});
std::vector<milling::PlanPlace> places_to_keep(const ProposedOrder& order);

}  // namespace prillbook::results
