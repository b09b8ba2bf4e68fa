// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/results/duplicate_pairs.h"

#include <cmath>

#include "core/results/statements.h"

namespace prillbook::results {
namespace {

using controls::Role;

double limit_of(Role role, const lab::Settings& settings) {
  switch (role) {
    case Role::duplicate_field: return settings.duplicate_field_limit_pct;
    case Role::duplicate_coarse: return settings.duplicate_coarse_limit_pct;
    default: return settings.duplicate_pulp_limit_pct;
  }
}

bool within_weighing(const MeasuredGrade& a, const MeasuredGrade& b) {
  if (!a.spread || !b.spread) return false;
  return std::abs(a.g_t() - b.g_t()) <= coverage_factor(infinite_dof) * std::hypot(a.spread->u, b.spread->u);
}

void judge_pair(DuplicatePair& pair, const lab::Settings& settings) {
  pair.limit_pct = limit_of(pair.second.role, settings);
  const MeasuredGrade *a = pair.first.gold(), *b = pair.second.gold();
  if (pair.first.left_out || pair.second.left_out) pair.verdict = ControlVerdict::not_judged;
  if (!a || !b) return;
  const double sum = a->g_t() + b->g_t();
  pair.apart_pct = sum > 0 ? 200 * half_relative_difference({a->g_t(), b->g_t()}) : 0;
  pair.verdict = *pair.apart_pct <= pair.limit_pct || within_weighing(*a, *b) ? ControlVerdict::within : ControlVerdict::outside;
}

template <class Id>
Result<void> add_pairs(TestReader& reader, const store::Sql& statement, std::int64_t most, std::vector<DuplicatePair>& list) {
  std::vector<Id> ids;
  PRILLBOOK_TRY(reader.connection().rows(statement, {most}, [&](const store::Row& row) {
    ids.push_back(Id{row.integer(0)});
    return true;
  }));
  for (const Id id : ids) {
    PRILLBOOK_ASSIGN(SingleTest second, reader.read(id));
    PRILLBOOK_ASSIGN(DuplicatePair pair, pair_of(reader, std::move(second)));
    list.push_back(std::move(pair));
  }
  return {};
}

}  // namespace

Result<DuplicatePair> pair_of(TestReader& reader, SingleTest second) {
  if (!second.duplicate_of) return refusal(ErrorCode::inconsistent, "duplicate_of_id", "it is no duplicate");
  DuplicatePair pair;
  if (second.charge) {
    PRILLBOOK_ASSIGN(pair.first, reader.read(ChargeId{second.duplicate_of}));
  } else {
    PRILLBOOK_ASSIGN(pair.first, reader.read(PanTestId{second.duplicate_of}));
  }
  pair.second = std::move(second);
  judge_pair(pair, reader.settings());
  return pair;
}

Result<std::vector<DuplicatePair>> duplicate_pairs(TestReader& reader, std::int64_t most) {
  std::vector<DuplicatePair> list;
  PRILLBOOK_TRY(add_pairs<ChargeId>(reader, sql::duplicate_charges, most, list));
  PRILLBOOK_TRY(add_pairs<PanTestId>(reader, sql::duplicate_pan_tests, most, list));
  return list;
}

std::vector<const DuplicatePair*> comparable(const std::vector<DuplicatePair>& pairs) {
  std::vector<const DuplicatePair*> list;
  for (const DuplicatePair& pair : pairs)
    if (const MeasuredGrade* a = pair.first.gold(), *b = pair.second.gold(); a && b && a->g_t() + b->g_t() > 0)
      list.push_back(&pair);
  return list;
}

std::vector<Pair> gold_pairs(const std::vector<DuplicatePair>& pairs) {
  std::vector<Pair> list;
  for (const DuplicatePair* pair : comparable(pairs)) list.push_back({pair->first.gold()->g_t(), pair->second.gold()->g_t()});
  return list;
}

}  // namespace prillbook::results
