// SPDX-License-Identifier: GPL-3.0-or-later
// Loads of the furnace: what temperatures were set and read, and the proofs that went with the beads.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "core/base/id.h"
#include "core/fire/practice.h"
#include "core/history/journal.h"
#include "core/readings/entry.h"

namespace prillbook::fire {

struct RunReading {
  RunReadingId id;
  Instant read_at;
  std::optional<std::int64_t> set_c, read_c;
  std::optional<std::string> remarks;
};

struct Proof {
  ProofId id;
  readings::Figure gold_in, silver_in, lead, bead, gold_out;
  std::optional<std::string> remarks;

  ProofMasses masses() const;
};

struct FurnaceRun {
  FurnaceRunId id;
  std::string name;
  std::optional<std::string> kind, remarks;
  std::optional<Instant> began_at, ended_at;
  PersonId run_by;
  std::optional<std::int64_t> set_c, places;
  std::vector<RunReading> readings;  // by time
  std::vector<Proof> proofs;

  ProofLoss loss() const;
};

struct NewRun {
  std::string name;  // empty: the kind and the day
  std::string kind;  // fusion, cupellation, roast, anneal
  PersonId by;
};

struct NewReading {
  FurnaceRunId run;
  std::optional<Instant> read_at;  // absent: now
  std::optional<std::int64_t> set_c, read_c;
  std::optional<std::string> remarks;
};

// Errors: out_of_range (kind).
Result<FurnaceRunId> start_run(history::Journal& journal, const NewRun& run);
Result<FurnaceRunId> start_run(history::ChangeSet& set, const NewRun& run);
// Errors: missing_key (neither set nor read nor remarked), out_of_range (0 to 2000 °C).
Result<RunReadingId> note_temperature(history::Journal& journal, const NewReading& reading);
Result<RunReadingId> note_temperature(history::ChangeSet& set, const NewReading& reading);
Result<ProofId> add_proof(history::Journal& journal, FurnaceRunId run);
Result<ProofId> add_proof(history::ChangeSet& set, FurnaceRunId run);

// Writes the loss that the proofs of its cupellation run show as the loss of a charge, with the reason beside it. A gain is
// no loss and is written as 0. Errors: missing_key (no run; no proof with both its masses); conflict where metal was
// recovered from its cupel.
Result<void> take_proof_losses(history::Journal& journal, ChargeId charge);

Result<FurnaceRun> furnace_run(store::Connection& connection, FurnaceRunId id);
Result<std::vector<FurnaceRun>> furnace_runs(store::Connection& connection);  // newest first
Result<FurnaceRun> run_by_name(store::Connection& connection, std::string_view name);
// Charges fused or cupelled in it, by id.
Result<std::vector<ChargeId>> charges_in(store::Connection& connection, FurnaceRunId id);

}  // namespace prillbook::fire
