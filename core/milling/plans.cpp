// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/milling/plans.h"

#include <algorithm>
#include <set>

#include "core/history/fields.h"
#include "core/history/record.h"
#include "core/milling/machines.h"
#include "core/milling/statements.h"

namespace prillbook::milling {
namespace {

namespace plan_fields = history::fields::crushing_plan;
namespace place_fields = history::fields::plan_place;
using history::Entity;
using history::Record;
using readings::cell_of;

Result<std::vector<PlanPlace>> places_of(store::Connection& connection, PlanId id) {
  PRILLBOOK_ASSIGN(const auto records, history::load_referring(connection, place_fields::plan, id.value));
  std::vector<PlanPlace> places;
  for (const Record& record : records) {
    PlanPlace place{record.whole(place_fields::number),
                    record.reference<SampleId>(place_fields::sample),
                    {},
                    record.whole(place_fields::flushes)};
    PRILLBOOK_ASSIGN(place.flush_mass, readings::figure_of(record, place_fields::flush_mass));
    places.push_back(std::move(place));
  }
  std::sort(places.begin(), places.end(), [](const PlanPlace& a, const PlanPlace& b) { return a.number < b.number; });
  return places;
}

Result<WaitingSample> waiting_of(const store::Row& row) {
  WaitingSample one;
  one.line.id = SampleId{row.integer(0)};
  one.line.number = row.text(1);
  one.line.mark = row.text(2);
  one.line.client = row.text(3);
  one.tested = row.integer(7) != 0;
  if (!row.is_null(4)) {
    PRILLBOOK_ASSIGN(one.mass, readings::decode(row.text(4), Measure::mass));
  }
  if (!row.is_null(5)) one.expected = row.text(5);
  if (!row.is_null(6)) {
    PRILLBOOK_ASSIGN(one.due, parse_iso(row.text(6)));
  }
  return one;
}

Result<Plan> plan_of(store::Connection& connection, const Record& record) {
  Plan plan;
  plan.id = PlanId{record.id()};
  plan.machine = record.reference<MachineId>(plan_fields::machine);
  plan.made_by = record.reference<PersonId>(plan_fields::made_by);
  PRILLBOOK_ASSIGN(plan.made_at, parse_iso(record.text(plan_fields::made_at)));
  PRILLBOOK_ASSIGN(plan.places, places_of(connection, plan.id));
  return plan;
}

}  // namespace

const PlanPlace* Plan::place_of(SampleId sample) const {
  const auto found = std::find_if(places.begin(), places.end(), [&](const PlanPlace& place) { return place.sample == sample; });
  return found == places.end() ? nullptr : &*found;
}

Result<PlanId> keep_plan(history::ChangeSet& set, MachineId id, PersonId by, const std::vector<PlanPlace>& places,
                         const std::optional<Instant>& made_at) {
  const Instant made_then = made_at.value_or(set.when());
  if (places.empty()) return refusal(ErrorCode::missing_key, "plan_place", "no sample is waiting: there is nothing to order");
  std::set<RecordId> seen;
  for (const PlanPlace& place : places)
    if (!seen.insert(place.sample.value).second)
      return refusal(ErrorCode::already_exists, "plan_place.sample_id", "a sample stands twice in the order");
  PRILLBOOK_ASSIGN(const Machine used, machine(set.connection(), id));
  if (used.retired(made_then))
    return Error{ErrorCode::conflict, "crushing_plan.machine_id", "the machine is retired", {used.name}};
  PRILLBOOK_ASSIGN(const RecordId made, set.make(Entity::crushing_plan, {{plan_fields::machine, cell_of(id)},
                                                                         {plan_fields::made_at, to_iso(made_then)},
                                                                         {plan_fields::made_by, cell_of(by)}}));
  std::int64_t number = 0;
  for (const PlanPlace& place : places) {
    auto kept = set.make(Entity::plan_place, {{place_fields::plan, made},
                                              {place_fields::number, ++number},
                                              {place_fields::sample, cell_of(place.sample)},
                                              {place_fields::flush_mass, cell_of(place.flush_mass)},
                                              {place_fields::flushes, place.flushes}});
    if (!kept) return kept.error();
  }
  return PlanId{made};
}

Result<PlanId> keep_plan(history::Journal& journal, MachineId id, PersonId by, const std::vector<PlanPlace>& places) {
  return journal.record_for<PlanId>("make crushing order",
                                    [&](history::ChangeSet& set) { return keep_plan(set, id, by, places); });
}

Result<Plan> plan(store::Connection& connection, PlanId id) {
  PRILLBOOK_ASSIGN(const Record record, history::load_record(connection, Entity::crushing_plan, id.value));
  return plan_of(connection, record);
}

Result<std::optional<Plan>> plan_at(store::Connection& connection, MachineId machine, const Instant& at) {
  PRILLBOOK_ASSIGN(const auto records, history::load_referring(connection, plan_fields::machine, machine.value));
  const Record* newest = nullptr;
  std::int64_t newest_ms = INT64_MIN;
  for (const Record& record : records) {
    PRILLBOOK_ASSIGN(const Instant made_at, parse_iso(record.text(plan_fields::made_at)));
    if (made_at.utc_ms > at.utc_ms || made_at.utc_ms < newest_ms) continue;
    newest = &record;
    newest_ms = made_at.utc_ms;
  }
  if (!newest) return std::optional<Plan>{};
  PRILLBOOK_ASSIGN(Plan found, plan_of(connection, *newest));
  return std::optional(std::move(found));
}

Result<std::optional<Plan>> plan_in_force(store::Connection& connection, MachineId machine) {
  return plan_at(connection, machine, {INT64_MAX, 0});
}

Result<std::vector<WaitingSample>> waiting_for(store::Connection& connection, MachineId machine, std::int64_t limit) {
  std::vector<WaitingSample> waiting;
  std::optional<Error> failed;
  PRILLBOOK_TRY(connection.rows(sql::waiting_for_machine, {machine.value, limit}, [&](const store::Row& row) {
    auto one = waiting_of(row);
    if (!one) failed = one.error();
    if (one) waiting.push_back(*std::move(one));
    return !failed;
  }));
  if (failed) return *failed;
  return waiting;
}

Result<std::vector<PreparedLine>> recently_prepared(store::Connection& connection, std::int64_t limit) {
  std::vector<PreparedLine> lines;
  PRILLBOOK_TRY(connection.rows(sql::recently_prepared, {limit}, [&](const store::Row& row) {
    lines.push_back({SampleId{row.integer(0)}, row.text(1), row.text(2), row.text(3)});
    return true;
  }));
  return lines;
}

Result<std::int64_t> count_waiting(store::Connection& connection) { return connection.integer(sql::count_waiting); }

}  // namespace prillbook::milling
