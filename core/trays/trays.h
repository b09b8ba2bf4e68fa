// SPDX-License-Identifier: GPL-3.0-or-later
// Trays: numbered grids of crucibles, moulds, cupels or beads. A position holds a charge, the bead of a pan test, or a
// control named in words, so that a bead keeps its name from the furnace to the balance.
//
// Positions count from 1, row by row. One position holds one thing, and one thing stands on at most one position of the
// trays of one kind that are in use: a charge has one crucible, one mould, one cupel. Nothing is deleted: what is cleared
// or moved stays readable in the history, with its reason. Put a tray away once it is done with; its places stay as they
// were and its charges may then stand elsewhere.
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "core/base/id.h"
#include "core/history/journal.h"

namespace prillbook::trays {

enum class Kind { crucible, mould, cupel, bead };
std::string_view name_of(Kind kind);  // as stored: "crucible", "mould", "cupel", "bead"
std::optional<Kind> find_kind(std::string_view name);

struct Grid {
  std::int64_t rows = 1, columns = 12;  // each 1 to 100

  std::int64_t size() const { return rows * columns; }
  std::int64_t row_of(std::int64_t position) const { return (position - 1) / columns + 1; }     // from 1
  std::int64_t column_of(std::int64_t position) const { return (position - 1) % columns + 1; }  // from 1
  bool holds(std::int64_t position) const { return position >= 1 && position <= size(); }
};

// What stands on a position; exactly one of the three. The bead of a charge is taken for its charge.
struct Thing {
  ChargeId charge;
  BeadId bead;  // of a pan test
  std::string control;

  friend bool operator==(const Thing&, const Thing&) = default;
};

struct Place {
  TrayPlaceId id;
  std::int64_t position = 0;
  Thing thing;
  BeadId bead;                        // the bead to weigh, of the charge or the pan test; none for a control
  std::vector<std::int64_t> earlier;  // positions of this tray that it was moved away from, oldest first

  // Where it was put when it came onto the tray.
  std::int64_t first_position() const { return earlier.empty() ? position : earlier.front(); }
};

struct Tray {
  TrayId id;
  std::string name;
  Kind kind = Kind::bead;
  Grid grid;
  std::optional<Instant> made_at, put_away_at;
  std::optional<std::string> remarks;
  FurnaceRunId run;           // of the furnace that took it
  std::vector<Place> places;  // those that hold something, by position

  const Place* at(std::int64_t position) const;              // null where it is empty
  Result<void> check_position(std::int64_t position) const;  // errors: out_of_range (the position, and how many there are)
  std::optional<std::int64_t> first_free(std::int64_t from = 1) const;
};

struct NewTray {
  std::string name;
  Kind kind = Kind::bead;
  Grid grid;  // a numbered row of twelve where nothing else is said
};

// Errors: missing_key (no name), out_of_range (the grid).
Result<TrayId> lay_out(history::ChangeSet& set, const NewTray& tray);
Result<TrayId> lay_out(history::Journal& journal, const NewTray& tray);

// Errors: conflict where something stands on it.
Result<void> set_kind(history::ChangeSet& set, TrayId id, Kind kind);
Result<void> set_kind(history::Journal& journal, TrayId id, Kind kind);

// Errors: out_of_range; conflict where something stands on a position that would be gone.
Result<void> set_grid(history::ChangeSet& set, TrayId id, const Grid& grid);
Result<void> set_grid(history::Journal& journal, TrayId id, const Grid& grid);

// Errors: out_of_range (no such position); conflict (something stands there, or the thing stands elsewhere on a tray of
// this kind in use, or the tray is put away); missing_key (not exactly one thing); not_found.
Result<TrayPlaceId> place(history::ChangeSet& set, TrayId tray, std::int64_t position, const Thing& thing);
Result<TrayPlaceId> place(history::Journal& journal, TrayId tray, std::int64_t position, const Thing& thing);

// Moves what stands at `from` to the empty position `to` of the same tray. Errors as place; not_found (nothing at `from`).
Result<void> move(history::ChangeSet& set, TrayId tray, std::int64_t from, std::int64_t to, const std::string& why);
Result<void> move(history::Journal& journal, TrayId tray, std::int64_t from, std::int64_t to, const std::string& why);

// What stands on two positions changes places. Errors: not_found where one is empty (move instead), out_of_range.
Result<void> swap(history::ChangeSet& set, TrayId tray, std::int64_t a, std::int64_t b, const std::string& why);
Result<void> swap(history::Journal& journal, TrayId tray, std::int64_t a, std::int64_t b, const std::string& why);

// Errors: not_found where nothing stands there.
Result<void> clear(history::ChangeSet& set, TrayId tray, std::int64_t position, const std::string& why);
Result<void> clear(history::Journal& journal, TrayId tray, std::int64_t position, const std::string& why);

// From crucible to mould to cupel to bead tray: everything on `from` is put on the same positions of `to`, and stays on
// `from` as the record of where it stood. Errors as place: nothing is written unless all of it fits.
Result<void> carry_on(history::ChangeSet& set, TrayId from, TrayId to);
Result<void> carry_on(history::Journal& journal, TrayId from, TrayId to);

// The run that took the tray takes every charge on it: as their fusion where it holds crucibles, as their cupellation where
// it holds cupels. No run: the tray and its charges name none. Errors: conflict (moulds and beads go through no run; the run is
// of another kind); not_found.
Result<void> load_into(history::ChangeSet& set, TrayId id, FurnaceRunId run);
Result<void> load_into(history::Journal& journal, TrayId id, FurnaceRunId run);

// Done with, from now on; takes it into use again where `away` is false. Errors: conflict where one of its things stands
// elsewhere meanwhile.
Result<void> put_away(history::ChangeSet& set, TrayId id, bool away = true);
Result<void> put_away(history::Journal& journal, TrayId id, bool away = true);

Result<Tray> tray(store::Connection& connection, TrayId id);
Result<std::vector<Tray>> trays_in_use(store::Connection& connection);  // oldest first
// Of trays in use, blanks around the name do not matter. Errors: not_found, ambiguous.
Result<TrayId> tray_by_name(store::Connection& connection, std::string_view name);
// Where a thing stands, on trays in use; by tray.
struct Standing {
  TrayId tray;
  std::string tray_name;
  Kind kind;
  std::int64_t position = 0;
};
Result<std::vector<Standing>> where_is(store::Connection& connection, const Thing& thing);
// The same with the trays that are put away, in the order crucible, mould, cupel, bead.
Result<std::vector<Standing>> where_it_stood(store::Connection& connection, const Thing& thing);

}  // namespace prillbook::trays
