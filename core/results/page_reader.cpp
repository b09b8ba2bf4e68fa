// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/results/page_reader.h"

#include <fmt/format.h>

#include <algorithm>
#include <iterator>

#include "core/history/fields.h"
#include "core/results/tray_walks.h"
#include "core/units/units.h"

namespace prillbook::results {
namespace {

namespace f = history::fields;
using Ids = std::vector<RecordId>;

Result<void> load_pan_tests(history::Source source, PortionId portion, SampleRecord& record) {
  PRILLBOOK_ASSIGN(const auto pan_tests, gravity::pan_tests_of(source, portion));
  for (const gravity::PanTest& test : pan_tests) {
    PRILLBOOK_ASSIGN(weighing::Bead bead, weighing::bead_of(source, test.id));
    PRILLBOOK_ASSIGN(auto pannings, gravity::pannings_of(source, test.id));
    record.pan_tests.push_back({test, std::move(bead), std::move(pannings)});
  }
  return {};
}

Result<void> load_charges(history::Source source, PortionId portion, SampleRecord& record) {
  PRILLBOOK_ASSIGN(const auto charges, fire::charges_of(source, portion));
  for (const fire::Charge& charge : charges) {
    PRILLBOOK_ASSIGN(weighing::Bead bead, weighing::bead_of(source, charge.id));
    record.charges.push_back({charge, std::move(bead)});
  }
  return {};
}

Result<void> load_tests(history::Source source, SampleRecord& record) {
  for (const portions::Portion& portion : record.portions) {
    PRILLBOOK_TRY(load_pan_tests(source, portion.id, record));
    PRILLBOOK_ASSIGN(auto screened, gravity::metallics_of(source, portion.id));
    std::move(screened.begin(), screened.end(), std::back_inserter(record.metallics));
    PRILLBOOK_ASSIGN(auto analyses, sieves::analyses_of(source, portion.id));
    std::move(analyses.begin(), analyses.end(), std::back_inserter(record.sieve_analyses));
    PRILLBOOK_TRY(load_charges(source, portion.id, record));
  }
  const auto by_id = [](const auto& a, const auto& b) { return a.bead.id < b.bead.id; };
  std::sort(record.pan_tests.begin(), record.pan_tests.end(), by_id);
  std::sort(record.charges.begin(), record.charges.end(), by_id);
  std::sort(record.sieve_analyses.begin(), record.sieve_analyses.end(), [](const auto& a, const auto& b) { return a.id < b.id; });
  return {};
}

std::optional<Grade> metal_found(store::Connection& connection, const fire::Charge& charge, const portions::Portion& portion,
                                 Result<void>& outcome) {
  const auto bead = weighing::bead_of(connection, charge.id);
  if (!bead) {
    outcome = bead.error();
    return std::nullopt;
  }
  const auto weighings = bead->valid(weighing::of_bead);
  if (weighings.empty() || !portion.mass || !(portion.mass->mass() > Mass())) return std::nullopt;
  return grade(weighings.front()->mass.mass(), portion.mass->mass());
}

// The newest charge before each of the sample's in the same crucible.
Result<void> load_pot_uses(store::Connection& connection, SampleRecord& record) {
  const auto in_a_pot = [](const FireEntry& entry) { return bool(entry.charge.pot); };
  if (std::none_of(record.charges.begin(), record.charges.end(), in_a_pot)) return {};
  PRILLBOOK_ASSIGN(const auto pots, fire::pots(connection));
  for (const FireEntry& entry : record.charges) {
    const auto pot = std::find_if(pots.begin(), pots.end(), [&](const fire::Pot& one) { return one.id == entry.charge.pot; });
    if (pot == pots.end()) continue;
    PRILLBOOK_ASSIGN(const auto uses, history::load_referring(connection, history::fields::charge::pot, pot->id.value));
    ChargeId last;
    for (const history::Record& use : uses)
      if (use.id() < entry.charge.id.value) last = ChargeId{use.id()};
    if (!last) continue;
    PRILLBOOK_ASSIGN(const fire::Charge before, fire::charge(connection, last));
    PRILLBOOK_ASSIGN(const portions::Portion portion, portions::portion(connection, before.portion));
    PRILLBOOK_ASSIGN(const custody::Sample sample, custody::sample(connection, portion.sample));
    Result<void> outcome;
    const auto metal = metal_found(connection, before, portion, outcome);
    PRILLBOOK_TRY(outcome);
    record.pot_uses.push_back({entry.charge.id, last, pot->name, fmt::format("{}/{}", sample.number, portion.number), metal});
  }
  return {};
}

Result<void> load_runs(store::Connection& connection, SampleRecord& record) {
  for (const FireEntry& entry : record.charges)
    for (const FurnaceRunId id : {entry.charge.fusion_run, entry.charge.cupellation_run}) {
      if (!id || record.run(id)) continue;
      PRILLBOOK_ASSIGN(const history::Record run, history::load_record(connection, history::Entity::furnace_run, id.value));
      PRILLBOOK_ASSIGN(auto decision, controls::standing_decision(connection, id));
      record.runs.push_back({id, run.text(history::fields::furnace_run::name), std::move(decision)});
    }
  return {};
}

Result<bool> was_on_tray(history::Source source, const SampleRecord& record) {
  for (const FireEntry& entry : record.charges) {
    PRILLBOOK_ASSIGN(const auto places, history::load_referring(source, f::tray_place::charge, entry.charge.id.value));
    if (!places.empty()) return true;
  }
  for (const PanEntry& entry : record.pan_tests) {
    PRILLBOOK_ASSIGN(const auto places, history::load_referring(source, f::tray_place::bead, entry.bead.id.value));
    if (!places.empty()) return true;
  }
  return false;
}

}  // namespace

Result<void> PageReader::begin(std::span<const SampleId> samples) {
  Ids ids;
  for (const SampleId id : samples) ids.push_back(id.value);
  PRILLBOOK_TRY(ahead_.read(history::Entity::sample, ids));
  for (const history::Field* of_sample :
       {&f::step::sample, &f::hand_over::sample, &f::own_metal::sample, &f::told_figure::sample, &f::control_material::stock}) {
    PRILLBOOK_TRY(ahead_.read(*of_sample, ids));
  }
  PRILLBOOK_ASSIGN(const Ids portions, ahead_.read(f::portion::sample, ids));
  return read_tests(portions);
}

bool PageReader::stands(SampleId id) const {
  const history::Record* const held = ahead_.find(history::Entity::sample, id.value);
  return held && !held->struck();
}

Result<void> PageReader::read_tests(std::span<const RecordId> portions) {
  PRILLBOOK_TRY(ahead_.read(f::metallics::portion, portions));
  PRILLBOOK_ASSIGN(const Ids analyses, ahead_.read(f::sieve_analysis::portion, portions));
  PRILLBOOK_TRY(ahead_.read(f::sieve_cut::analysis, analyses));
  PRILLBOOK_ASSIGN(const Ids pan_tests, ahead_.read(f::pan_test::portion, portions));
  PRILLBOOK_TRY(ahead_.read(f::panning::pan_test, pan_tests));
  PRILLBOOK_TRY(ahead_.read(f::pan_test::duplicate_of, pan_tests));
  PRILLBOOK_ASSIGN(charges_, ahead_.read(f::charge::portion, portions));
  PRILLBOOK_TRY(ahead_.read(f::charge::duplicate_of, charges_));
  PRILLBOOK_TRY(ahead_.read(f::tray_place::charge, charges_));
  return read_beads(pan_tests);
}

Result<void> PageReader::read_beads(std::span<const RecordId> pan_tests) {
  PRILLBOOK_ASSIGN(Ids beads, ahead_.read(f::bead::pan_test, pan_tests));
  PRILLBOOK_TRY(ahead_.read(f::tray_place::bead, beads));
  PRILLBOOK_ASSIGN(const Ids of_fire, ahead_.read(f::bead::charge, charges_));
  beads.insert(beads.end(), of_fire.begin(), of_fire.end());
  PRILLBOOK_TRY(ahead_.read(f::weighing::bead, beads));
  PRILLBOOK_TRY(ahead_.read(f::bead::melted_into, beads));
  return {};
}

Result<const custody::ConsignmentRecord*> PageReader::consignment(ConsignmentId id, std::span<const lab::Person> people) {
  if (!consignment_ || consignment_->consignment.id != id) {
    consignment_.reset();
    PRILLBOOK_ASSIGN(consignment_, custody::load_consignment_record(source(), id, people));
  }
  return &*consignment_;
}

Result<void> PageReader::read(SampleId id, SampleRecord& record) {
  record.pan_tests.clear(), record.charges.clear(), record.sieve_analyses.clear(), record.metallics.clear();
  record.pot_uses.clear(), record.runs.clear(), record.bead_places.clear(), record.tray_walks.clear();
  PRILLBOOK_ASSIGN(record.sample, custody::sample(source(), id));
  PRILLBOOK_ASSIGN(const auto* shared, consignment(record.sample.consignment, record.people));
  record.consignment = shared->consignment;
  record.client = shared->client;
  PRILLBOOK_ASSIGN(record.portions, portions::portions_of(source(), id));
  PRILLBOOK_ASSIGN(record.steps, milling::steps_of(source(), id));
  PRILLBOOK_ASSIGN(record.losses, portions::losses_of(source(), id));
  PRILLBOOK_ASSIGN(record.custody, custody::load_custody_record(source(), record.sample, *shared));
  PRILLBOOK_TRY(load_tests(source(), record));
  PRILLBOOK_TRY(load_pot_uses(connection_, record));
  PRILLBOOK_TRY(load_runs(connection_, record));
  PRILLBOOK_ASSIGN(const bool on_tray, was_on_tray(source(), record));
  return on_tray ? load_tray_walks(connection_, record) : Result<void>();
}

}  // namespace prillbook::results
