// SPDX-License-Identifier: GPL-3.0-or-later
// What goes onto a tray: found by what is typed, all that waits at once, or carried on to a new tray.
#pragma once

#include <span>

#include "core/readings/entry.h"
#include "core/trays/trays.h"

namespace prillbook::trays {

// A portion by its label ("26-0003/2") means its newest charge that is not spoiled, else the bead of its pan test; a sample by
// its number that of its only one; anything else is a control in words and may not begin with a digit. Errors: missing_key
// (nothing typed; the portion has neither charge nor pan test); ambiguous (the sample has several); not_found.
Result<Thing> thing_called(store::Connection& connection, std::string_view typed);

// What a thing is called: a control has its words for `label` and nothing else.
struct Called {
  std::string label, mark;  // "26-0003/2", the client's mark of its sample
  readings::Figure portion_mass;
};
Result<Called> called(store::Connection& connection, const Thing& thing);

// Charges whose bead is not weighed and that stand on no tray of this kind in use, the oldest first.
Result<std::vector<Thing>> without_place(store::Connection& connection, Kind kind, std::int64_t limit);

// Onto the free positions from the first on. Errors: conflict where there are more than the tray has room for, and as place:
// nothing is written unless all of it fits.
Result<void> place_all(history::ChangeSet& set, TrayId id, std::span<const Thing> things);
Result<void> place_all(history::Journal& journal, TrayId id, std::span<const Thing> things);

// "cupels 2026-05-04 09:00".
std::string usual_name(Kind kind, const Instant& when);
// Lays out a tray of this kind with the same grid and carries everything on to it; an empty name: the usual one. Errors: as
// lay_out and carry_on; conflict where the kind does not come after that of `from`.
Result<TrayId> carry_on_to_new(history::ChangeSet& set, TrayId from, Kind kind, const std::string& name = {});
Result<TrayId> carry_on_to_new(history::Journal& journal, TrayId from, Kind kind, const std::string& name = {});

}  // namespace prillbook::trays
