// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/fire/runs.h"

#include <fmt/format.h>

#include <algorithm>
#include <iterator>

#include "core/fire/charge_record.h"
#include "core/history/fields.h"
#include "core/history/record.h"

namespace prillbook::fire {
namespace {

namespace run_fields = history::fields::furnace_run;
namespace reading_fields = history::fields::run_reading;
namespace proof_fields = history::fields::proof;
using history::Entity;
using history::Record;
using readings::cell_of;
using readings::Figure;
using readings::figure_of;

constexpr std::int64_t hottest_c = 2000;

std::optional<Mass> weighed_mass(const Figure& figure) { return figure ? std::optional(figure->mass()) : std::nullopt; }

Result<RunReading> reading_of(const Record& record) {
  RunReading reading{RunReadingId{record.id()},
                     {},
                     record.optional_whole(reading_fields::set_c),
                     record.optional_whole(reading_fields::read_c),
                     record.optional_text(reading_fields::remarks)};
  PRILLBOOK_ASSIGN(reading.read_at, parse_iso(record.text(reading_fields::read_at)));
  return reading;
}

Result<Proof> proof_of(const Record& record) {
  Proof proof;
  proof.id = ProofId{record.id()};
  proof.remarks = record.optional_text(proof_fields::remarks);
  PRILLBOOK_ASSIGN(proof.gold_in, figure_of(record, proof_fields::gold_in));
  PRILLBOOK_ASSIGN(proof.silver_in, figure_of(record, proof_fields::silver_in));
  PRILLBOOK_ASSIGN(proof.lead, figure_of(record, proof_fields::lead));
  PRILLBOOK_ASSIGN(proof.bead, figure_of(record, proof_fields::bead));
  PRILLBOOK_ASSIGN(proof.gold_out, figure_of(record, proof_fields::gold_out));
  return proof;
}

Result<FurnaceRun> run_of(store::Connection& connection, const Record& record) {
  FurnaceRun run;
  run.id = FurnaceRunId{record.id()};
  run.name = record.text(run_fields::name);
  run.kind = record.optional_text(run_fields::kind);
  run.remarks = record.optional_text(run_fields::remarks);
  run.run_by = record.reference<PersonId>(run_fields::run_by);
  run.set_c = record.optional_whole(run_fields::set_c);
  run.places = record.optional_whole(run_fields::places);
  for (const auto& [field, into] :
       {std::pair(&run_fields::began_at, &run.began_at), std::pair(&run_fields::ended_at, &run.ended_at)})
    if (const auto text = record.optional_text(*field)) {
      PRILLBOOK_ASSIGN(*into, parse_iso(*text));
    }
  PRILLBOOK_ASSIGN(const auto readings, history::load_referring(connection, reading_fields::run, record.id()));
  for (const Record& one : readings) {
    PRILLBOOK_ASSIGN(RunReading reading, reading_of(one));
    run.readings.push_back(std::move(reading));
  }
  std::stable_sort(run.readings.begin(), run.readings.end(),
                   [](const auto& a, const auto& b) { return a.read_at.utc_ms < b.read_at.utc_ms; });
  PRILLBOOK_ASSIGN(const auto proofs, history::load_referring(connection, proof_fields::run, record.id()));
  for (const Record& one : proofs) {
    PRILLBOOK_ASSIGN(Proof proof, proof_of(one));
    run.proofs.push_back(std::move(proof));
  }
  return run;
}

Result<void> check_temperature(std::optional<std::int64_t> celsius, const char* field) {
  if (!celsius || (*celsius >= 0 && *celsius <= hottest_c)) return {};
  return Error{ErrorCode::out_of_range, field, "a temperature lies from 0 to 2000 °C", {fmt::format("{} °C", *celsius)}};
}

Figure loss_figure(Share loss) {
  auto reading =
      readings::parse(fixed(std::max(0.0, loss.in(unit::percent)), 2), {Measure::share, "%", DecimalMark::point, true});
  return reading ? Figure(*std::move(reading)) : Figure();
}

}  // namespace

ProofMasses Proof::masses() const {
  return {weighed_mass(gold_in), weighed_mass(silver_in), weighed_mass(bead), weighed_mass(gold_out)};
}

ProofLoss FurnaceRun::loss() const {
  std::vector<ProofMasses> all;
  for (const Proof& proof : proofs) all.push_back(proof.masses());
  return loss_of_proofs(all);
}

Result<FurnaceRunId> start_run(history::ChangeSet& set, const NewRun& fresh) {
  std::string name(trimmed(fresh.name));
  if (name.empty()) {
    name = fresh.kind + " " + to_iso(set.when()).substr(0, 16);
    std::replace(name.begin(), name.end(), 'T', ' ');
  }
  PRILLBOOK_ASSIGN(const RecordId id, set.make(Entity::furnace_run, {{run_fields::name, name},
                                                                     {run_fields::kind, cell_of(std::optional(fresh.kind))},
                                                                     {run_fields::began_at, to_iso(set.when())},
                                                                     {run_fields::run_by, cell_of(fresh.by)}}));
  return FurnaceRunId{id};
}

Result<FurnaceRunId> start_run(history::Journal& journal, const NewRun& fresh) {
  return journal.record_for<FurnaceRunId>("start furnace run", [&](history::ChangeSet& set) { return start_run(set, fresh); });
}

Result<RunReadingId> note_temperature(history::ChangeSet& set, const NewReading& fresh) {
  if (!fresh.set_c && !fresh.read_c && trimmed(fresh.remarks.value_or("")).empty())
    return Error{ErrorCode::missing_key, "run_reading.read_c", "neither set nor read", {}};
  PRILLBOOK_TRY(check_temperature(fresh.set_c, "run_reading.set_c"));
  PRILLBOOK_TRY(check_temperature(fresh.read_c, "run_reading.read_c"));
  PRILLBOOK_ASSIGN(const RecordId id,
                   set.make(Entity::run_reading, {{reading_fields::run, cell_of(fresh.run)},
                                                  {reading_fields::read_at, to_iso(fresh.read_at.value_or(set.when()))},
                                                  {reading_fields::set_c, cell_of(fresh.set_c)},
                                                  {reading_fields::read_c, cell_of(fresh.read_c)},
                                                  {reading_fields::remarks, cell_of(fresh.remarks)}}));
  return RunReadingId{id};
}

Result<RunReadingId> note_temperature(history::Journal& journal, const NewReading& fresh) {
  return journal.record_for<RunReadingId>("note temperature",
                                          [&](history::ChangeSet& set) { return note_temperature(set, fresh); });
}

Result<ProofId> add_proof(history::ChangeSet& set, FurnaceRunId run) {
  PRILLBOOK_ASSIGN(const RecordId id, set.make(Entity::proof, {{proof_fields::run, cell_of(run)}}));
  return ProofId{id};
}

Result<ProofId> add_proof(history::Journal& journal, FurnaceRunId run) {
  return journal.record_for<ProofId>("add proof", [&](history::ChangeSet& set) { return add_proof(set, run); });
}

Result<void> take_proof_losses(history::Journal& journal, ChargeId id) {
  namespace charge_fields = history::fields::charge;
  PRILLBOOK_ASSIGN(const Charge held, charge(journal.connection(), id));
  if (!held.cupellation_run)
    return Error{ErrorCode::missing_key, "charge.cupellation_run_id", "the run it was cupelled in is not named", {}};
  if (held.cupel_metal)
    return Error{
        ErrorCode::conflict, "charge.cupel_metal", "metal was recovered from the cupel: recovered or lost, not both", {}};
  PRILLBOOK_ASSIGN(const FurnaceRun run, furnace_run(journal.connection(), held.cupellation_run));
  const ProofLoss loss = run.loss();
  if (!loss.gold && !loss.silver)
    return Error{ErrorCode::missing_key, "proof.bead", "no proof of that run is weighed in and out", {}};
  return journal.record("take loss of proofs", [&](history::ChangeSet& set) -> Result<void> {
    set.because(fmt::format("{} proofs of {}", loss.proofs, run.name));
    if (loss.gold) PRILLBOOK_TRY(set.set(charge_fields::gold_loss, id.value, cell_of(loss_figure(*loss.gold))));
    if (loss.silver) PRILLBOOK_TRY(set.set(charge_fields::silver_loss, id.value, cell_of(loss_figure(*loss.silver))));
    return {};
  });
}

Result<FurnaceRun> furnace_run(store::Connection& connection, FurnaceRunId id) {
  PRILLBOOK_ASSIGN(const Record record, history::load_record(connection, Entity::furnace_run, id.value));
  return run_of(connection, record);
}

Result<std::vector<FurnaceRun>> furnace_runs(store::Connection& connection) {
  PRILLBOOK_ASSIGN(const auto records, history::load_all(connection, Entity::furnace_run));
  std::vector<FurnaceRun> list;
  for (auto record = records.rbegin(); record != records.rend(); ++record) {
    PRILLBOOK_ASSIGN(FurnaceRun run, run_of(connection, *record));
    list.push_back(std::move(run));
  }
  return list;
}

Result<FurnaceRun> run_by_name(store::Connection& connection, std::string_view name) {
  PRILLBOOK_ASSIGN(std::vector<FurnaceRun> all, furnace_runs(connection));
  for (FurnaceRun& run : all)
    if (run.name == trimmed(name)) return std::move(run);
  return Error{ErrorCode::not_found, "furnace_run", fmt::format("there is no run {}", name), {std::string(name)}};
}

Result<std::vector<ChargeId>> charges_in(store::Connection& connection, FurnaceRunId id) {
  std::vector<ChargeId> list;
  for (const history::Field* field : {&history::fields::charge::fusion_run, &history::fields::charge::cupellation_run}) {
    PRILLBOOK_ASSIGN(const auto records, history::load_referring(connection, *field, id.value));
    for (const Record& record : records) list.push_back(ChargeId{record.id()});
  }
  std::sort(list.begin(), list.end());
  list.erase(std::unique(list.begin(), list.end()), list.end());
  return list;
}

}  // namespace prillbook::fire
