// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/results/sample_record.h"

#include <fmt/format.h>

#include <algorithm>
#include <iterator>
#include <map>

#include "core/history/fields.h"
#include "core/history/record.h"
#include "core/results/statements.h"
#include "core/results/tray_walks.h"
#include "core/units/units.h"

namespace prillbook::results {
namespace {

constexpr std::int64_t checks_read = 300;  // of one balance: a year of working days

Result<void> load_pan_tests(store::Connection& connection, PortionId portion, SampleRecord& record) {
  PRILLBOOK_ASSIGN(const auto pan_tests, gravity::pan_tests_of(connection, portion));
  for (const gravity::PanTest& test : pan_tests) {
    PRILLBOOK_ASSIGN(weighing::Bead bead, weighing::bead_of(connection, test.id));
    PRILLBOOK_ASSIGN(auto pannings, gravity::pannings_of(connection, test.id));
    record.pan_tests.push_back({test, std::move(bead), std::move(pannings)});
  }
  return {};
}

Result<void> load_charges(store::Connection& connection, PortionId portion, SampleRecord& record) {
  PRILLBOOK_ASSIGN(const auto charges, fire::charges_of(connection, portion));
  for (const fire::Charge& charge : charges) {
    PRILLBOOK_ASSIGN(weighing::Bead bead, weighing::bead_of(connection, charge.id));
    record.charges.push_back({charge, std::move(bead)});
  }
  return {};
}

// What was done with a portion, so that only that is read.
struct OnPortion {
  bool panned = false, screened = false, sieved = false, fired = false, on_tray = false;
};

using Done = std::map<RecordId, OnPortion>;

Result<Done> done_with_portions(store::Connection& connection, SampleId sample) {
  Done done;
  PRILLBOOK_TRY(connection.rows(sql::tests_on_portions, {sample.value}, [&](const store::Row& row) {
    done[row.integer(0)] = {row.integer(1) != 0, row.integer(2) != 0, row.integer(3) != 0, row.integer(4) != 0,
                            row.integer(5) != 0};
    return true;
  }));
  return done;
}

Result<void> load_tests(store::Connection& connection, const Done& done, SampleRecord& record) {
  for (const portions::Portion& portion : record.portions) {
    const auto found = done.find(portion.id.value);
    const OnPortion on = found == done.end() ? OnPortion{} : found->second;
    if (on.panned) PRILLBOOK_TRY(load_pan_tests(connection, portion.id, record));
    if (on.screened) {
      PRILLBOOK_ASSIGN(auto screened, gravity::metallics_of(connection, portion.id));
      std::move(screened.begin(), screened.end(), std::back_inserter(record.metallics));
    }
    if (on.sieved) {
      PRILLBOOK_ASSIGN(auto analyses, sieves::analyses_of(connection, portion.id));
      std::move(analyses.begin(), analyses.end(), std::back_inserter(record.sieve_analyses));
    }
    if (on.fired) PRILLBOOK_TRY(load_charges(connection, portion.id, record));
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

// The nearest portion of one of these purposes on the way up. A parent is always older than its portion; the count bounds a
// damaged tree that bites its tail.
const portions::Portion* upwards(const SampleRecord& record, PortionId id, std::initializer_list<std::string_view> purposes) {
  const portions::Portion* at = record.portion(id);
  for (std::size_t step = 0; at && step <= record.portions.size(); ++step) {
    if (std::find(purposes.begin(), purposes.end(), at->purpose) != purposes.end()) return at;
    at = at->parent ? record.portion(at->parent) : nullptr;
  }
  return nullptr;
}

}  // namespace

const portions::Portion* SampleRecord::portion(PortionId id) const {
  const auto found = std::find_if(portions.begin(), portions.end(), [&](const portions::Portion& p) { return p.id == id; });
  return found == portions.end() ? nullptr : &*found;
}

std::string SampleRecord::initials(PersonId id) const {
  const auto found = std::find_if(people.begin(), people.end(), [&](const lab::Person& person) { return person.id == id; });
  return found == people.end() ? std::string() : found->initials;
}

std::string SampleRecord::portion_label(PortionId id) const {
  const portions::Portion* found = portion(id);
  return found ? fmt::format("{}/{}", sample.number, found->number) : sample.number;
}

const portions::Portion* SampleRecord::pan_product_of(PortionId id) const { return upwards(*this, id, {"remainder", "tail"}); }

const portions::Portion* SampleRecord::fraction_of(PortionId id) const { return upwards(*this, id, {"fraction"}); }

const fire::Lot* SampleRecord::lot(LotId id) const {
  const auto found = std::find_if(lots.begin(), lots.end(), [&](const fire::Lot& one) { return one.id == id; });
  return found == lots.end() ? nullptr : &*found;
}

const RunNote* SampleRecord::run(FurnaceRunId id) const {
  const auto found = std::find_if(runs.begin(), runs.end(), [&](const RunNote& one) { return one.run == id; });
  return found == runs.end() ? nullptr : &*found;
}

std::optional<Mass> SampleRecord::blank_of(const fire::Charge& charge) const {
  if (charge.blank) return charge.blank->mass();
  std::optional<Mass> sum;
  for (const auto& [id, mass] :
       {std::pair(charge.litharge_lot, &charge.litharge), std::pair(charge.lead_lot, &charge.lead_added)}) {
    const fire::Lot* held = lot(id);
    if (!held || !held->silver || !*mass) continue;
    sum = sum.value_or(Mass()) + silver_brought(held->silver->grade(), (*mass)->mass());
  }
  return sum;
}

const milling::Step* SampleRecord::last_step_before(PortionId id, const Instant& at,
                                                    const std::function<bool(const milling::Step&)>& wanted) const {
  Instant until = at;
  for (std::size_t depth = 0; depth <= portions.size(); ++depth) {
    const milling::Step* last = nullptr;
    for (const milling::Step& step : steps)
      if (step.portion == id && step.done_at.utc_ms <= until.utc_ms && wanted(step)) last = &step;
    if (last || !id) return last;
    const portions::Portion* held = portion(id);
    if (!held) return nullptr;
    if (held->cut_at && held->cut_at->utc_ms < until.utc_ms) until = *held->cut_at;
    id = held->parent;
  }
  return nullptr;
}

std::optional<Opening> SampleRecord::top_size_of(const portions::Portion& portion) const {
  const milling::Step* step = last_step_before(portion.parent, portion.cut_at.value_or(Instant{INT64_MAX, 0}),
                                               [](const milling::Step& one) { return one.top_size.has_value(); });
  if (!step) return std::nullopt;
  return step->top_size->opening();
}

bool SampleRecord::cut_dry(const portions::Portion& portion) const {
  return last_step_before(portion.parent, portion.cut_at.value_or(Instant{INT64_MAX, 0}),
                          [](const milling::Step& one) { return one.kind == "dry"; }) != nullptr;
}

// What all samples of a lab share.
Result<void> load_lab(store::Connection& connection, SampleRecord& record) {
  record.checks.clear();
  PRILLBOOK_ASSIGN(record.people, lab::people(connection));
  PRILLBOOK_ASSIGN(record.balances, lab::balances(connection));
  for (const lab::Balance& balance : record.balances) {
    PRILLBOOK_ASSIGN(auto checks, weighing::check_weighings(connection, balance.id, checks_read));
    std::move(checks.begin(), checks.end(), std::back_inserter(record.checks));
  }
  PRILLBOOK_ASSIGN(record.settings, lab::settings(connection));
  PRILLBOOK_ASSIGN(record.sieves, sieves::sieves(connection));
  PRILLBOOK_ASSIGN(record.lots, fire::lots(connection));
  return {};
}

Result<void> load_own(store::Connection& connection, SampleId id, SampleRecord& record) {
  record.pan_tests.clear(), record.charges.clear(), record.sieve_analyses.clear(), record.metallics.clear();
  record.pot_uses.clear(), record.runs.clear(), record.bead_places.clear(), record.tray_walks.clear();
  PRILLBOOK_ASSIGN(record.sample, custody::sample(connection, id));
  PRILLBOOK_ASSIGN(record.consignment, custody::consignment(connection, record.sample.consignment));
  PRILLBOOK_ASSIGN(record.client, lab::client(connection, record.consignment.client));
  PRILLBOOK_ASSIGN(record.portions, portions::portions_of(connection, id));
  PRILLBOOK_ASSIGN(record.steps, milling::steps_of(connection, id));
  PRILLBOOK_ASSIGN(record.losses, portions::losses_of(connection, id));
  PRILLBOOK_ASSIGN(record.custody, custody::load_custody_record(connection, record.sample, record.consignment, record.people));
  PRILLBOOK_ASSIGN(const Done done, done_with_portions(connection, id));
  PRILLBOOK_TRY(load_tests(connection, done, record));
  PRILLBOOK_TRY(load_pot_uses(connection, record));
  PRILLBOOK_TRY(load_runs(connection, record));
  const bool on_tray = std::any_of(done.begin(), done.end(), [](const auto& one) { return one.second.on_tray; });
  return on_tray ? load_tray_walks(connection, record) : Result<void>();
}

Result<SampleRecord> load_sample_record(store::Connection& connection, SampleId id) {
  SampleRecord record;
  PRILLBOOK_TRY(load_lab(connection, record));
  PRILLBOOK_TRY(load_own(connection, id, record));
  return record;
}

}  // namespace prillbook::results
