// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/controls/insertion.h"

#include <algorithm>
#include <iterator>
#include <span>

#include "core/controls/roles.h"
#include "core/controls/statements.h"

namespace prillbook::controls {
namespace {

constexpr std::int64_t ms_of_a_day = 86'400'000;

constexpr Role blanks[] = {Role::blank_rock};
constexpr Role references[] = {Role::reference};
constexpr Role duplicates[] = {Role::duplicate_field, Role::duplicate_coarse, Role::duplicate_pulp};

constexpr Insertion kinds[] = {Insertion::blank, Insertion::reference, Insertion::duplicate};

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
  for (const Insertion what : kinds) {
    PRILLBOOK_ASSIGN(const Last control, last_of(connection, what, last));
    PRILLBOOK_ASSIGN(Since one, since(connection, what, one_in(settings, what), control, last));
    made.counts.push_back(std::move(one));
  }
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

Result<Insertions> Insertions::read(store::Connection& connection, ChargeId first, ChargeId last) {
  Insertions read(connection);
  for (const Insertion what : kinds) {
    Controls& controls = read.controls_[std::size_t(what)];
    PRILLBOOK_ASSIGN(Last before, last_of(connection, what, first.value));
    if (before.charge > 0) controls.push_back({before.charge, std::move(before.fired_at)});
    for (const Role role : roles_of(what))
      PRILLBOOK_TRY(
          connection.rows(sql::controls_between, {role_name(role), first.value, last.value}, [&](const store::Row& row) {
            controls.push_back({row.integer(0), row.text(1)});
            return true;
          }));
    std::sort(controls.begin(), controls.end(), [](const Control& a, const Control& b) { return a.charge < b.charge; });
  }
  return read;
}

Result<std::vector<Since>> Insertions::since_at(const lab::Settings& settings, ChargeId charge) const {
  std::vector<Since> list;
  for (const Insertion what : kinds) {
    const Controls& controls = controls_[std::size_t(what)];
    const auto after = std::upper_bound(controls.begin(), controls.end(), charge.value,
                                        [](RecordId id, const Control& one) { return id < one.charge; });
    if (after == controls.begin()) continue;
    const Control& last = *std::prev(after);
    PRILLBOOK_ASSIGN(Since one, since(*connection_, what, one_in(settings, what), {last.charge, last.fired_at}, charge.value));
    list.push_back(std::move(one));
  }
  return list;
}

}  // namespace prillbook::controls
