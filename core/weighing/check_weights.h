// SPDX-License-Identifier: GPL-3.0-or-later
// Check weights, their weighings, and what these say about a balance.
#pragma once

#include <optional>
#include <span>
#include <string>
#include <vector>

#include "core/base/id.h"
#include "core/history/journal.h"
#include "core/readings/entry.h"

namespace prillbook::weighing {

struct CheckWeight {
  CheckWeightId id;
  std::string name;
  readings::Reading nominal, allowed;
  std::optional<std::string> remarks;
};

struct CheckWeighing {
  CheckWeighingId id;
  BalanceId balance;
  CheckWeightId weight;
  readings::Reading mass, nominal, allowed;  // nominal and allowed as they were then
  Instant weighed_at;
  PersonId weighed_by;
  std::optional<std::string> raw, excluded;

  Mass deviation() const { return mass.mass() - nominal.mass(); }
  // Beyond what is allowed, by more than the rounding of a double.
  bool failed() const;
};

// Errors: missing_key (no name), out_of_range (nominal or allowed not above 0).
Result<CheckWeightId> add_check_weight(history::Journal& journal, const std::string& name, const readings::Reading& nominal,
                                       const readings::Reading& allowed);
Result<CheckWeightId> add_check_weight(history::ChangeSet& set, const std::string& name, const readings::Reading& nominal,
                                       const readings::Reading& allowed);

struct NewCheckWeighing {
  BalanceId balance;
  CheckWeightId weight;
  readings::Reading mass;
  std::optional<Instant> weighed_at;  // absent: now
  PersonId weighed_by;
  std::optional<std::string> raw;  // the line that the balance sent
};
// A weighing that fails is kept like any other. Errors: out_of_range above the balance's capacity; not_found.
Result<CheckWeighingId> weigh_check(history::Journal& journal, const NewCheckWeighing& weighing);
Result<CheckWeighingId> weigh_check(history::ChangeSet& set, const NewCheckWeighing& weighing);

Result<std::vector<CheckWeight>> check_weights(store::Connection& connection);
Result<CheckWeight> check_weight_by_name(store::Connection& connection, std::string_view name);  // errors: not_found
// The newest first.
Result<std::vector<CheckWeighing>> check_weighings(store::Connection& connection, BalanceId balance, std::int64_t limit);

// What the checks of one balance say at a moment.
enum class CheckState {
  never,      // no check before it
  passed,     // the last check of every weight passed
  failed,     // the last check of one weight failed
  other_day,  // passed, but not on that day (local time of the moment)
};
struct CheckVerdict {
  CheckState state = CheckState::never;
  const CheckWeighing* last = nullptr;  // the one that failed, else the newest; null: never
};
CheckVerdict verdict_at(std::span<const CheckWeighing> checks, BalanceId balance, const Instant& at);

// Standard deviation of the balance, pooled over its check weights: each weight's weighings about their own mean, those left
// out excepted. So the drift between days is in it. nullopt below `least_freedom` degrees of freedom: fewer tell little.
// Source: pooled variance, ISO 5725-2 (from memory); the least number is common practice, no source.
inline constexpr double least_freedom = 5;
struct PooledChecks {
  Mass sd;
  double dof = 0;
};
std::optional<PooledChecks> pooled_of_checks(std::span<const CheckWeighing> checks, BalanceId balance);

}  // namespace prillbook::weighing
