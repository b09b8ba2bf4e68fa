// SPDX-License-Identifier: GPL-3.0-or-later
// What was decided of the results of a furnace load. Decisions are added, never overwritten; the newest stands.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "core/base/clock.h"
#include "core/base/id.h"
#include "core/history/journal.h"

namespace prillbook::controls {

struct RunDecision {
  RunDecisionId id;
  FurnaceRunId run;
  std::string decision;  // accepted, held, repeated
  std::optional<std::string> reason;
  std::string evidence;  // hash of what its controls said
  Instant decided_at;
  PersonId decided_by;
};

struct NewDecision {
  FurnaceRunId run;
  std::string decision;
  std::string reason;
  std::string evidence;
  bool over_a_control = false;             // accepted although a control is outside
  std::optional<Instant> decided_at = {};  // absent: now
  PersonId decided_by = {};
};

// Errors: missing_key (field run_decision.reason) where it is held, repeated, or accepted over a control, without a reason;
// out_of_range (decision).
Result<RunDecisionId> decide(history::ChangeSet& set, const NewDecision& decision);

Result<std::vector<RunDecision>> decisions_of(store::Connection& connection, FurnaceRunId run);  // oldest first
Result<std::optional<RunDecision>> standing_decision(store::Connection& connection, FurnaceRunId run);

}  // namespace prillbook::controls
