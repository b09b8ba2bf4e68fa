// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/weighing/check_weights.h"

#include <fmt/format.h>

#include <cmath>
#include <map>

#include "core/assay/repeats.h"
#include "core/history/fields.h"
#include "core/history/record.h"
#include "core/lab/lab.h"
#include "core/units/units.h"
#include "core/weighing/statements.h"

namespace prillbook::weighing {
namespace {

namespace weight_fields = history::fields::check_weight;
namespace check_fields = history::fields::check_weighing;
using history::Entity;
using history::Record;
using readings::cell_of;
using readings::Figure;
using readings::Reading;

Result<Reading> needed(const Record& record, const history::Field& field) {
  PRILLBOOK_ASSIGN(const Figure figure, readings::figure_of(record, field));
  if (!figure) return Error{ErrorCode::damaged, std::string(field.column), "a check without its figure", {}};
  return *figure;
}

Result<CheckWeight> weight_of(const Record& record) {
  CheckWeight weight;
  weight.id = CheckWeightId{record.id()};
  weight.name = record.text(weight_fields::name);
  PRILLBOOK_ASSIGN(weight.nominal, needed(record, weight_fields::nominal));
  PRILLBOOK_ASSIGN(weight.allowed, needed(record, weight_fields::allowed));
  weight.remarks = record.optional_text(weight_fields::remarks);
  return weight;
}

Result<CheckWeighing> check_of(const Record& record) {
  CheckWeighing check;
  check.id = CheckWeighingId{record.id()};
  check.balance = record.reference<BalanceId>(check_fields::balance);
  check.weight = record.reference<CheckWeightId>(check_fields::weight);
  PRILLBOOK_ASSIGN(check.mass, needed(record, check_fields::mass));
  PRILLBOOK_ASSIGN(check.nominal, needed(record, check_fields::nominal));
  PRILLBOOK_ASSIGN(check.allowed, needed(record, check_fields::allowed));
  PRILLBOOK_ASSIGN(check.weighed_at, parse_iso(record.text(check_fields::weighed_at)));
  check.weighed_by = record.reference<PersonId>(check_fields::weighed_by);
  check.raw = record.optional_text(check_fields::raw);
  check.excluded = record.optional_text(check_fields::excluded);
  return check;
}

bool above_zero(const Reading& reading) { return reading.state == readings::State::measured && reading.value > 0; }

}  // namespace

bool CheckWeighing::failed() const {
  const double off = std::abs(deviation().in(unit::gram)), most = allowed.mass().in(unit::gram);
  return off > most + 1e-9 * nominal.mass().in(unit::gram);
}

Result<CheckWeightId> add_check_weight(history::ChangeSet& set, const std::string& name, const Reading& nominal,
                                       const Reading& allowed) {
  if (!above_zero(nominal)) return refusal(ErrorCode::out_of_range, "check_weight.nominal", "a weight weighs something");
  if (!above_zero(allowed)) return refusal(ErrorCode::out_of_range, "check_weight.allowed", "the deviation is above zero");
  PRILLBOOK_ASSIGN(const RecordId id, set.make(Entity::check_weight, {{weight_fields::name, cell_of(std::optional(name))},
                                                                      {weight_fields::nominal, cell_of(Figure{nominal})},
                                                                      {weight_fields::allowed, cell_of(Figure{allowed})}}));
  return CheckWeightId{id};
}

Result<CheckWeightId> add_check_weight(history::Journal& journal, const std::string& name, const Reading& nominal,
                                       const Reading& allowed) {
  return journal.record_for<CheckWeightId>(
      "add check weight", [&](history::ChangeSet& set) { return add_check_weight(set, name, nominal, allowed); });
}

Result<CheckWeighingId> weigh_check(history::ChangeSet& set, const NewCheckWeighing& fresh) {
  PRILLBOOK_ASSIGN(const Record weight, history::load_record(set.connection(), Entity::check_weight, fresh.weight.value));
  PRILLBOOK_ASSIGN(const Reading mass, lab::on_balance(set.connection(), fresh.mass, fresh.balance));
  PRILLBOOK_ASSIGN(const RecordId id,
                   set.make(Entity::check_weighing, {{check_fields::balance, cell_of(fresh.balance)},
                                                     {check_fields::weight, cell_of(fresh.weight)},
                                                     {check_fields::mass, cell_of(Figure{mass})},
                                                     {check_fields::nominal, weight.value(weight_fields::nominal)},
                                                     {check_fields::allowed, weight.value(weight_fields::allowed)},
                                                     {check_fields::weighed_at, to_iso(fresh.weighed_at.value_or(set.when()))},
                                                     {check_fields::weighed_by, cell_of(fresh.weighed_by)},
                                                     {check_fields::raw, cell_of(fresh.raw)}}));
  return CheckWeighingId{id};
}

Result<CheckWeighingId> weigh_check(history::Journal& journal, const NewCheckWeighing& fresh) {
  return journal.record_for<CheckWeighingId>("weigh check weight",
                                             [&](history::ChangeSet& set) { return weigh_check(set, fresh); });
}

Result<std::vector<CheckWeight>> check_weights(store::Connection& connection) {
  PRILLBOOK_ASSIGN(const auto records, history::load_all(connection, Entity::check_weight));
  std::vector<CheckWeight> list;
  for (const Record& record : records) {
    PRILLBOOK_ASSIGN(CheckWeight one, weight_of(record));
    list.push_back(std::move(one));
  }
  return list;
}

Result<CheckWeight> check_weight_by_name(store::Connection& connection, std::string_view name) {
  PRILLBOOK_ASSIGN(const auto all, check_weights(connection));
  for (const CheckWeight& one : all)
    if (one.name == trimmed(name)) return one;
  return Error{ErrorCode::not_found, "weight", fmt::format("there is no check weight {}", name), {std::string(name)}};
}

Result<std::vector<CheckWeighing>> check_weighings(store::Connection& connection, BalanceId balance, std::int64_t limit) {
  std::vector<RecordId> ids;
  PRILLBOOK_TRY(connection.rows(sql::newest_checks, {balance.value, limit}, [&](const store::Row& row) {
    ids.push_back(row.integer(0));
    return true;
  }));
  std::vector<CheckWeighing> list;
  for (const RecordId id : ids) {
    PRILLBOOK_ASSIGN(const Record record, history::load_record(connection, Entity::check_weighing, id));
    PRILLBOOK_ASSIGN(CheckWeighing one, check_of(record));
    list.push_back(std::move(one));
  }
  return list;
}

CheckVerdict verdict_at(std::span<const CheckWeighing> checks, BalanceId balance, const Instant& at) {
  std::map<CheckWeightId, const CheckWeighing*> last;  // of each weight
  const CheckWeighing* newest = nullptr;
  for (const CheckWeighing& check : checks) {
    if (check.balance != balance || check.excluded || check.weighed_at.utc_ms > at.utc_ms) continue;
    const CheckWeighing*& of_weight = last[check.weight];
    const auto later = [&](const CheckWeighing* than) {
      return !than || std::pair(check.weighed_at.utc_ms, check.id.value) > std::pair(than->weighed_at.utc_ms, than->id.value);
    };
    if (later(of_weight)) of_weight = &check;
    if (later(newest)) newest = &check;
  }
  if (!newest) return {};
  for (const auto& [weight, check] : last)
    if (check->failed()) return {CheckState::failed, check};
  const Instant then{newest->weighed_at.utc_ms, at.offset_minutes};
  return {local_date(then) == local_date(at) ? CheckState::passed : CheckState::other_day, newest};
}

std::optional<PooledChecks> pooled_of_checks(std::span<const CheckWeighing> checks, BalanceId balance) {
  std::map<CheckWeightId, std::vector<Mass>> by_weight;
  for (const CheckWeighing& check : checks)
    if (check.balance == balance && !check.excluded) by_weight[check.weight].push_back(check.mass.mass());
  std::vector<std::vector<Mass>> groups;
  for (auto& [weight, masses] : by_weight) groups.push_back(std::move(masses));
  const auto pooled = pooled_repeatability(groups);
  if (!pooled || pooled->dof < least_freedom) return std::nullopt;
  return PooledChecks{pooled->sd, pooled->dof};
}

}  // namespace prillbook::weighing
