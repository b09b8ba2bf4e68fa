// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/trays/trays.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>

#include "core/base/text.h"
#include "core/history/fields.h"
#include "core/history/record.h"
#include "core/readings/entry.h"
#include "core/trays/statements.h"

namespace prillbook::trays {
namespace {

namespace tray_fields = history::fields::tray;
namespace place_fields = history::fields::tray_place;
using history::Entity;
using history::Record;
using readings::cell_of;

constexpr std::int64_t most_of_a_side = 100;
constexpr std::array all_kinds{Kind::crucible, Kind::mould, Kind::cupel, Kind::bead};

Result<std::optional<Instant>> instant_of(const Record& record, const history::Field& field) {
  const auto text = record.optional_text(field);
  if (!text) return std::optional<Instant>{};
  PRILLBOOK_ASSIGN(const Instant at, parse_iso(*text));
  return std::optional(at);
}

Result<BeadId> bead_to_weigh(store::Connection& connection, const Thing& thing) {
  if (thing.bead) return thing.bead;
  if (!thing.charge) return BeadId{};
  PRILLBOOK_ASSIGN(const auto beads, history::load_referring(connection, history::fields::bead::charge, thing.charge.value));
  return beads.empty() ? BeadId{} : BeadId{beads.front().id()};
}

Result<Place> place_of(store::Connection& connection, const Record& record) {
  Place place;
  place.id = TrayPlaceId{record.id()};
  place.position = record.whole(place_fields::position);
  place.thing = {record.reference<ChargeId>(place_fields::charge), record.reference<BeadId>(place_fields::bead),
                 record.text(place_fields::control)};
  PRILLBOOK_ASSIGN(place.bead, bead_to_weigh(connection, place.thing));
  return place;
}

Result<Tray> tray_of(store::Connection& connection, const Record& record) {
  Tray tray;
  tray.id = TrayId{record.id()};
  tray.name = record.text(tray_fields::name);
  const auto kind = find_kind(record.text(tray_fields::kind));
  if (!kind) return Error{ErrorCode::damaged, "tray.kind", fmt::format("tray {} is of no kind", record.id()), {}};
  tray.kind = *kind;
  tray.grid = {record.whole(tray_fields::rows), record.whole(tray_fields::columns)};
  if (tray.grid.columns < 1) return Error{ErrorCode::damaged, "tray.columns", "a tray without a column", {}};
  tray.remarks = record.optional_text(tray_fields::remarks);
  tray.run = record.reference<FurnaceRunId>(tray_fields::run);
  PRILLBOOK_ASSIGN(tray.made_at, instant_of(record, tray_fields::made_at));
  PRILLBOOK_ASSIGN(tray.put_away_at, instant_of(record, tray_fields::put_away_at));
  PRILLBOOK_ASSIGN(const auto records, history::load_referring(connection, place_fields::tray, record.id()));
  for (const Record& one : records) {
    PRILLBOOK_ASSIGN(Place place, place_of(connection, one));
    tray.places.push_back(std::move(place));
  }
  PRILLBOOK_TRY(connection.rows(sql::earlier_positions, {record.id()}, [&](const store::Row& row) {
    for (Place& place : tray.places)
      if (place.id.value == row.integer(0)) place.earlier.push_back(row.integer(1));
    return true;
  }));
  std::sort(tray.places.begin(), tray.places.end(), [](const Place& a, const Place& b) { return a.position < b.position; });
  return tray;
}

Result<void> check_grid(const Grid& grid) {
  const auto side = [](std::int64_t n) { return n >= 1 && n <= most_of_a_side; };
  if (!side(grid.rows)) return refusal(ErrorCode::out_of_range, "tray.rows", "a tray has 1 to 100 rows");
  if (!side(grid.columns)) return refusal(ErrorCode::out_of_range, "tray.columns", "a row has 1 to 100 positions");
  return {};
}

Result<void> check_free(const Tray& tray, std::int64_t position) {
  if (tray.put_away_at) return refusal(ErrorCode::conflict, "tray.put_away_at", tray.name + " is put away");
  PRILLBOOK_TRY(tray.check_position(position));
  if (tray.at(position))
    return Error{ErrorCode::conflict,
                 "tray_place.position",
                 fmt::format("something stands on position {} of {}", position, tray.name),
                 {std::to_string(position)}};
  return {};
}

Result<const Place*> check_taken(const Tray& tray, std::int64_t position) {
  PRILLBOOK_TRY(tray.check_position(position));
  const Place* held = tray.at(position);
  if (!held)
    return Error{ErrorCode::not_found,
                 "tray_place.position",
                 fmt::format("nothing stands on position {} of {}", position, tray.name),
                 {std::to_string(position)}};
  return held;
}

// Exactly one thing; the bead of a charge becomes its charge.
Result<Thing> checked(store::Connection& connection, Thing thing) {
  thing.control = std::string(trimmed(thing.control));
  if (int(bool(thing.charge)) + int(bool(thing.bead)) + int(!thing.control.empty()) != 1)
    return refusal(ErrorCode::missing_key, "tray_place", "a position holds a charge, a bead of a pan test, or a control");
  if (thing.charge) {
    PRILLBOOK_ASSIGN(const Record charge, history::load_record(connection, Entity::charge, thing.charge.value));
    if (charge.struck()) return Error{ErrorCode::not_found, "charge", "the charge is struck out", {}};
  }
  if (!thing.bead) return thing;
  PRILLBOOK_ASSIGN(const Record bead, history::load_record(connection, Entity::bead, thing.bead.value));
  if (bead.struck()) return Error{ErrorCode::not_found, "bead", "the bead is struck out", {}};
  if (const ChargeId charge = bead.reference<ChargeId>(history::fields::bead::charge)) return Thing{charge, {}, {}};
  return thing;
}

Result<void> check_nowhere_else(store::Connection& connection, const Thing& thing, const Tray& here) {
  PRILLBOOK_ASSIGN(const auto standings, where_is(connection, thing));
  for (const Standing& standing : standings)
    if (standing.kind == here.kind)
      return Error{ErrorCode::conflict,
                   "tray_place.position",
                   fmt::format("it stands on position {} of {}", standing.position, standing.tray_name),
                   {standing.tray_name, std::to_string(standing.position)}};
  return {};
}

// One gesture, of a command that writes and gives nothing.
template <class Write>
Result<void> gesture(history::Journal& journal, std::string_view name, Write&& write) {
  return journal.record(name, [&](history::ChangeSet& set) -> Result<void> { return write(set); });
}

}  // namespace

std::string_view name_of(Kind kind) { return tray_fields::kinds[std::size_t(kind)]; }

std::optional<Kind> find_kind(std::string_view name) {
  for (const Kind kind : all_kinds)
    if (name_of(kind) == name) return kind;
  return std::nullopt;
}

const Place* Tray::at(std::int64_t position) const {
  const auto found = std::find_if(places.begin(), places.end(), [&](const Place& one) { return one.position == position; });
  return found == places.end() ? nullptr : &*found;
}

Result<void> Tray::check_position(std::int64_t position) const {
  if (grid.holds(position)) return {};
  return Error{ErrorCode::out_of_range,
               "tray_place.position",
               fmt::format("{} has positions 1 to {}, not {}", name, grid.size(), position),
               {std::to_string(position), std::to_string(grid.size())}};
}

std::optional<std::int64_t> Tray::first_free(std::int64_t from) const {
  for (std::int64_t position = std::max<std::int64_t>(from, 1); position <= grid.size(); ++position)
    if (!at(position)) return position;
  return std::nullopt;
}

Result<TrayId> lay_out(history::ChangeSet& set, const NewTray& fresh) {
  PRILLBOOK_TRY(check_grid(fresh.grid));
  PRILLBOOK_ASSIGN(const RecordId id, set.make(Entity::tray, {{tray_fields::name, cell_of(std::optional(fresh.name))},
                                                              {tray_fields::kind, std::string(name_of(fresh.kind))},
                                                              {tray_fields::rows, fresh.grid.rows},
                                                              {tray_fields::columns, fresh.grid.columns},
                                                              {tray_fields::made_at, to_iso(set.when())}}));
  return TrayId{id};
}

Result<TrayId> lay_out(history::Journal& journal, const NewTray& fresh) {
  return journal.record_for<TrayId>("lay out tray", [&](history::ChangeSet& set) { return lay_out(set, fresh); });
}

Result<void> set_kind(history::ChangeSet& set, TrayId id, Kind kind) {
  PRILLBOOK_ASSIGN(const Tray held, tray(set.connection(), id));
  if (kind != held.kind && !held.places.empty())
    return refusal(ErrorCode::conflict, "tray.kind", "something stands on it: take it off, or carry it on to another tray");
  return set.set(tray_fields::kind, id.value, std::string(name_of(kind)));
}

Result<void> set_kind(history::Journal& journal, TrayId id, Kind kind) {
  return gesture(journal, "set kind of tray", [&](history::ChangeSet& set) { return set_kind(set, id, kind); });
}

Result<void> set_grid(history::ChangeSet& set, TrayId id, const Grid& grid) {
  PRILLBOOK_TRY(check_grid(grid));
  PRILLBOOK_ASSIGN(const Tray held, tray(set.connection(), id));
  if (!held.places.empty() && !grid.holds(held.places.back().position))
    return Error{ErrorCode::conflict,
                 "tray.columns",
                 fmt::format("something stands on position {}", held.places.back().position),
                 {std::to_string(held.places.back().position)}};
  PRILLBOOK_TRY(set.set(tray_fields::rows, id.value, grid.rows));
  return set.set(tray_fields::columns, id.value, grid.columns);
}

Result<void> set_grid(history::Journal& journal, TrayId id, const Grid& grid) {
  return gesture(journal, "set grid of tray", [&](history::ChangeSet& set) { return set_grid(set, id, grid); });
}

Result<TrayPlaceId> place(history::ChangeSet& set, TrayId id, std::int64_t position, const Thing& thing) {
  PRILLBOOK_ASSIGN(const Tray held, tray(set.connection(), id));
  PRILLBOOK_ASSIGN(const Thing one, checked(set.connection(), thing));
  PRILLBOOK_TRY(check_free(held, position));
  PRILLBOOK_TRY(check_nowhere_else(set.connection(), one, held));
  PRILLBOOK_ASSIGN(const RecordId made,
                   set.make(Entity::tray_place, {{place_fields::tray, cell_of(id)},
                                                 {place_fields::position, position},
                                                 {place_fields::charge, cell_of(one.charge)},
                                                 {place_fields::bead, cell_of(one.bead)},
                                                 {place_fields::control, cell_of(std::optional(one.control))}}));
  return TrayPlaceId{made};
}

Result<TrayPlaceId> place(history::Journal& journal, TrayId id, std::int64_t position, const Thing& thing) {
  return journal.record_for<TrayPlaceId>("place on tray",
                                         [&](history::ChangeSet& set) { return place(set, id, position, thing); });
}

Result<void> move(history::ChangeSet& set, TrayId id, std::int64_t from, std::int64_t to, const std::string& why) {
  PRILLBOOK_ASSIGN(const Tray held, tray(set.connection(), id));
  PRILLBOOK_ASSIGN(const Place* moved, check_taken(held, from));
  if (from == to) return {};
  PRILLBOOK_TRY(check_free(held, to));
  if (!why.empty()) set.because(why);
  return set.set(place_fields::position, moved->id.value, to);
}

Result<void> move(history::Journal& journal, TrayId id, std::int64_t from, std::int64_t to, const std::string& why) {
  return gesture(journal, "move on tray", [&](history::ChangeSet& set) { return move(set, id, from, to, why); });
}

// One of the two is off the tray while the other takes its position: at no moment do two share one.
Result<void> swap(history::ChangeSet& set, TrayId id, std::int64_t a, std::int64_t b, const std::string& why) {
  PRILLBOOK_ASSIGN(const Tray held, tray(set.connection(), id));
  PRILLBOOK_ASSIGN(const Place* first, check_taken(held, a));
  PRILLBOOK_ASSIGN(const Place* second, check_taken(held, b));
  if (a == b) return {};
  if (!why.empty()) set.because(why);
  PRILLBOOK_TRY(set.set(place_fields::struck, first->id.value, std::int64_t{1}));
  PRILLBOOK_TRY(set.set(place_fields::position, first->id.value, b));
  PRILLBOOK_TRY(set.set(place_fields::position, second->id.value, a));
  return set.set(place_fields::struck, first->id.value, std::int64_t{0});
}

Result<void> swap(history::Journal& journal, TrayId id, std::int64_t a, std::int64_t b, const std::string& why) {
  return gesture(journal, "swap on tray", [&](history::ChangeSet& set) { return swap(set, id, a, b, why); });
}

Result<void> clear(history::ChangeSet& set, TrayId id, std::int64_t position, const std::string& why) {
  PRILLBOOK_ASSIGN(const Tray held, tray(set.connection(), id));
  PRILLBOOK_ASSIGN(const Place* taken, check_taken(held, position));
  if (!why.empty()) set.because(why);
  return set.set(place_fields::struck, taken->id.value, std::int64_t{1});
}

Result<void> clear(history::Journal& journal, TrayId id, std::int64_t position, const std::string& why) {
  return gesture(journal, "clear position", [&](history::ChangeSet& set) { return clear(set, id, position, why); });
}

Result<void> carry_on(history::ChangeSet& set, TrayId from, TrayId to) {
  PRILLBOOK_ASSIGN(const Tray held, tray(set.connection(), from));
  for (const Place& one : held.places)
    if (auto placed = place(set, to, one.position, one.thing); !placed) return placed.error();
  return {};
}

Result<void> carry_on(history::Journal& journal, TrayId from, TrayId to) {
  return gesture(journal, "carry on to tray", [&](history::ChangeSet& set) { return carry_on(set, from, to); });
}

Result<void> load_into(history::ChangeSet& set, TrayId id, FurnaceRunId run) {
  PRILLBOOK_ASSIGN(const Tray held, tray(set.connection(), id));
  if (held.kind != Kind::crucible && held.kind != Kind::cupel)
    return refusal(ErrorCode::conflict, "tray.run_id", "only crucibles and cupels go through a run");
  const bool fusion = held.kind == Kind::crucible;
  if (run) {
    PRILLBOOK_ASSIGN(const Record record, history::load_record(set.connection(), Entity::furnace_run, run.value));
    const std::string kind = record.text(history::fields::furnace_run::kind);
    if (!kind.empty() && kind != (fusion ? "fusion" : "cupellation"))
      return Error{
          ErrorCode::conflict, "tray.run_id", fmt::format("a tray of {}s goes through no {}", name_of(held.kind), kind), {kind}};
  }
  const history::Field& of_charge = fusion ? history::fields::charge::fusion_run : history::fields::charge::cupellation_run;
  for (const Place& one : held.places)
    if (one.thing.charge) PRILLBOOK_TRY(set.set(of_charge, one.thing.charge.value, cell_of(run)));
  return set.set(tray_fields::run, id.value, cell_of(run));
}

Result<void> load_into(history::Journal& journal, TrayId id, FurnaceRunId run) {
  return gesture(journal, "load tray", [&](history::ChangeSet& set) { return load_into(set, id, run); });
}

Result<void> put_away(history::ChangeSet& set, TrayId id, bool away) {
  PRILLBOOK_ASSIGN(const Tray held, tray(set.connection(), id));
  if (away == bool(held.put_away_at)) return {};
  if (!away)
    for (const Place& one : held.places)
      if (one.thing.control.empty()) PRILLBOOK_TRY(check_nowhere_else(set.connection(), one.thing, held));
  return set.set(tray_fields::put_away_at, id.value, away ? history::Value{to_iso(set.when())} : history::Value{});
}

Result<void> put_away(history::Journal& journal, TrayId id, bool away) {
  return gesture(journal, "put tray away", [&](history::ChangeSet& set) { return put_away(set, id, away); });
}

Result<Tray> tray(store::Connection& connection, TrayId id) {
  PRILLBOOK_ASSIGN(const Record record, history::load_record(connection, Entity::tray, id.value));
  if (record.struck()) return Error{ErrorCode::not_found, "tray", "the tray is struck out", {}};
  return tray_of(connection, record);
}

Result<std::vector<Tray>> trays_in_use(store::Connection& connection) {
  PRILLBOOK_ASSIGN(const auto records, history::load_all(connection, Entity::tray));
  std::vector<Tray> list;
  for (const Record& record : records) {
    if (record.optional_text(tray_fields::put_away_at)) continue;
    PRILLBOOK_ASSIGN(Tray one, tray_of(connection, record));
    list.push_back(std::move(one));
  }
  return list;
}

Result<TrayId> tray_by_name(store::Connection& connection, std::string_view name) {
  PRILLBOOK_ASSIGN(const auto in_use, trays_in_use(connection));
  TrayId found;
  for (const Tray& one : in_use) {
    if (one.name != trimmed(name)) continue;
    if (found) return Error{ErrorCode::ambiguous, "tray", fmt::format("two trays are called {}", name), {std::string(name)}};
    found = one.id;
  }
  if (!found) return Error{ErrorCode::not_found, "tray", fmt::format("there is no tray {}", name), {std::string(name)}};
  return found;
}

namespace {

// A control is told by its words and is no single thing: two blanks may stand on one tray.
Result<std::vector<Standing>> standing_by(store::Connection& connection, const store::Sql& statement, const Thing& thing) {
  std::vector<Standing> list;
  PRILLBOOK_ASSIGN(const Thing one, checked(connection, thing));
  if (!one.control.empty()) return list;
  PRILLBOOK_TRY(connection.rows(statement, {one.charge.value, one.bead.value}, [&](const store::Row& row) {
    list.push_back({TrayId{row.integer(0)}, row.text(1), find_kind(row.text(2)).value_or(Kind::bead), row.integer(3)});
    return true;
  }));
  return list;
}

}  // namespace

Result<std::vector<Standing>> where_is(store::Connection& connection, const Thing& thing) {
  return standing_by(connection, sql::standing, thing);
}

Result<std::vector<Standing>> where_it_stood(store::Connection& connection, const Thing& thing) {
  return standing_by(connection, sql::stood, thing);
}

}  // namespace prillbook::trays
