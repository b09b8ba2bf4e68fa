// SPDX-License-Identifier: GPL-3.0-or-later
// A crushing order that was made, and what is still to be done of it.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "core/custody/custody.h"
#include "core/history/journal.h"
#include "core/readings/entry.h"

namespace prillbook::milling {

struct PlanPlace {
  std::int64_t number = 0;
  SampleId sample;
  readings::Figure flush_mass;  // of each flush owed before it
  std::int64_t flushes = 0;
};

struct Plan {
  PlanId id;
  MachineId machine;
  Instant made_at;
  PersonId made_by;
  std::vector<PlanPlace> places;

  const PlanPlace* place_of(SampleId sample) const;
};

// Errors: missing_key (no places), already_exists (a sample twice), conflict (machine retired).
Result<PlanId> keep_plan(history::Journal& journal, MachineId machine, PersonId by, const std::vector<PlanPlace>& places);
Result<PlanId> keep_plan(history::ChangeSet& set, MachineId machine, PersonId by, const std::vector<PlanPlace>& places,
                         const std::optional<Instant>& made_at = {});
Result<Plan> plan(store::Connection& connection, PlanId id);
// The newest plan of the machine; nullopt where there is none.
Result<std::optional<Plan>> plan_in_force(store::Connection& connection, MachineId machine);
// The newest plan of the machine that was made by `at`.
Result<std::optional<Plan>> plan_at(store::Connection& connection, MachineId machine, const Instant& at);

// A sample that waits, with what its place in an order hangs on: read in one go, for there may be a thousand.
struct WaitingSample {
  custody::SampleLine line;
  readings::Figure mass;                // received
  std::optional<std::string> expected;  // class
  std::optional<Instant> due;
  bool tested = false;  // panned or fired: then its results say more than the class
};
// Samples that are there and were not through this machine yet, as they came in. Without machine: not through any.
// Composites count; a sample of which a portion was cut for a test does not: a pan-only job never waits.
Result<std::vector<WaitingSample>> waiting_for(store::Connection& connection, MachineId machine, std::int64_t limit);
struct PreparedLine {
  SampleId id;
  std::string number, mark, last_step;  // kind of the step written last
};
// Samples with a step, the one written last first.
Result<std::vector<PreparedLine>> recently_prepared(store::Connection& connection, std::int64_t limit);
Result<std::int64_t> count_waiting(store::Connection& connection);

}  // namespace prillbook::milling
