// SPDX-License-Identifier: GPL-3.0-or-later
// What the controls of a furnace load say, what was decided of it, and so what its results are worth.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "core/controls/decisions.h"
#include "core/results/control_chart.h"
#include "core/results/duplicate_pairs.h"

namespace prillbook::results {

// One control as it stands.
struct ControlResult {
  ChargeId charge;
  std::string label;  // "26-0012/3"
  controls::Role role = controls::Role::ordinary;
  std::string name;            // of its material; of a duplicate what it duplicates, "26-0003/2"
  std::string found, allowed;  // "0.24 ± 0.02 g/t gold", "at most 0.1 g/t"; may be empty
  ControlVerdict verdict = ControlVerdict::waiting;
  std::vector<ChartSignal> alarms;  // of a reference material
  SampleId stock;                    // of a duplicate: its sample
};

enum class RunStanding {
  no_controls,
  waiting,   // a control has no figure yet
  within,    // nothing decided: nothing had to be
  outside,   // a control is outside, and nobody has decided
  accepted,  // decided
  held,
  repeated,
};
std::string_view standing_name(RunStanding standing);  // "no_controls"

struct RunControls {
  FurnaceRunId run;
  std::string name;
  std::vector<ControlResult> controls;
  RunStanding standing = RunStanding::no_controls;
  std::optional<controls::RunDecision> decision;  // the newest
  bool changed_since = false;                     // its controls say something else than when it was accepted
  std::string evidence;                           // hash of what they say

  bool outside() const;  // one of the controls is
};

// Errors: not_found, damaged.
Result<RunControls> run_controls(TestReader& reader, FurnaceRunId run);
// The loads that have controls or a decision, newest first.
Result<std::vector<RunControls>> runs_with_controls(TestReader& reader, std::int64_t most);
// Of the newest so many loads that have controls and were never decided on, those with one outside.
Result<int> count_runs_to_decide(store::Connection& connection, std::int64_t most);
// Writes what is decided, with what the controls say at this moment. Errors: as controls::decide.
Result<void> decide_run(history::Journal& journal, FurnaceRunId run, const std::string& decision, const std::string& reason,
                        PersonId by);
Result<void> decide_run(history::ChangeSet& set, controls::NewDecision decision);

// Writes the gold of a flush assay with the cleaning that it is of. Errors: missing_key where it has no gold yet, or is no
// flush assay.
Result<void> take_flush_assay(history::Journal& journal, ChargeId charge);
// Writes the silver that a flux blank brought, per mass of its litharge, with that lot. Errors: missing_key (no lot, no
// litharge weighed, no bead).
Result<void> take_lot_silver(history::Journal& journal, ChargeId charge);

}  // namespace prillbook::results
