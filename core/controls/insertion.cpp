// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/controls/insertion.h"

#include <algorithm>
#include <span>

#include "core/controls/roles.h"
#include "core/controls/statements.h"

namespace prillbook::controls {
namespace {

constexpr std::int64_t ms_of_a_day = 86'400'000;

constexpr Role blanks[] = {Role::blank_rock};
constexpr Role references[] = {Role::reference};
constexpr Role duplicates[] = {Role::duplicate_field, Role::duplicate_coarse, Role::duplicate_pulp};

std::span<const Role> roles_of(Insertion what) {
  switch (what) {
    case Insertion::blank: return blanks;
    case Insertion::reference: return references;
    case Insertion::duplicate: return duplicates;
  }
  return {};
}

int one_in(const lab::Settings& settings, Insertion what) {
  switch (what) {
    case Insertion::blank: return settings.blank_one_in;
    case Insertion::reference: return settings.reference_one_in;
    case Insertion::duplicate: return settings.duplicate_one_in;
  }
  return 0;
}

struct Last {
  std::int64_t charge = 0;  // 0: there was none
  std::string fired_at;
};

Result<Last> last_of(store::Connection& connection, Insertion what, std::int64_t until) {
  Last last;
  for (const Role role : roles_of(what))
    PRILLBOOK_TRY(connection.rows(sql::last_of_role, {role_name(role), until}, [&](const store::Row& row) {
      if (row.integer(0) > last.charge) last = {row.integer(0), row.text(1)};
      return false;
    }));
  return last;
}

Result<Since> since(store::Connection& connection, Insertion what, int wanted, const Last& last, std::int64_t until) {
  Since made{what, wanted, last.charge > 0, 0, {}};
  if (const auto at = parse_iso(last.fired_at); at.ok()) made.last_at = *at;
  PRILLBOOK_TRY(connection.rows(sql::ordinary_charges_between, {last.charge, until, most_counted}, [&](const store::Row& row) {
    made.charges = row.integer(0);
    return false;
  }));
  return made;
}

enum class Kinds { all, begun };

Result<std::vector<Since>> counts(store::Connection& connection, const lab::Settings& settings, std::int64_t until, Kinds kinds) {
  std::vector<Since> list;
  for (const Insertion what : {Insertion::blank, Insertion::reference, Insertion::duplicate}) {
    PRILLBOOK_ASSIGN(const Last last, last_of(connection, what, until));
    if (kinds == Kinds::begun && last.charge == 0) continue;
    PRILLBOOK_ASSIGN(Since one, since(connection, what, one_in(settings, what), last, until));
    list.push_back(std::move(one));
  }
  return list;
}

}  // namespace

bool Due::due(const Since& since) const {
  const bool by_count = since.one_in > 0 && since.charges >= since.one_in;
  return by_count || (since.what == Insertion::reference && reference_by_day);
}

int Due::count() const {
  return int(std::count_if(counts.begin(), counts.end(), [&](const Since& one) { return due(one); })) + int(lots.size());
}

Result<Due> due_now(store::Connection& connection, const lab::Settings& settings, const Instant& now) {
  Due made;
  PRILLBOOK_ASSIGN(const std::int64_t last, connection.integer(sql::last_charge));
  PRILLBOOK_ASSIGN(made.counts, counts(connection, settings, last, Kinds::all));
  for (const Since& one : made.counts)
    if (one.what == Insertion::reference && one.last_at && one.charges > 0 && settings.reference_every_days > 0)
      made.reference_by_day = now.utc_ms - one.last_at->utc_ms > settings.reference_every_days * ms_of_a_day;
  if (settings.flux_blank_per_lot)
    PRILLBOOK_TRY(connection.rows(sql::lots_without_flux_blank, {}, [&](const store::Row& row) {
      made.lots.push_back(row.text(0));
      return true;
    }));
  return made;
}

Result<std::vector<Since>> since_at(store::Connection& connection, const lab::Settings& settings, ChargeId charge) {
  return counts(connection, settings, charge.value, Kinds::begun);
}

}  // namespace prillbook::controls
