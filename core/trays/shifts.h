// SPDX-License-Identifier: GPL-3.0-or-later
// What was moved on a tray, by whom and why; and which things came off one tray in another order than they went onto the next.
#pragma once

#include <span>

#include "core/trays/trays.h"

namespace prillbook::trays {

enum class ShiftKind { moved, swapped, cleared, put_back };

struct Shift {
  ShiftKind kind = ShiftKind::moved;
  std::int64_t from = 0, to = 0;  // cleared, put_back: the same position
  Instant when;
  std::string who;
  std::optional<std::string> why;
};

// Oldest first, read from the history: what stood somewhere else on the tray before, or is off it.
Result<std::vector<Shift>> shifts_of(store::Connection& connection, TrayId id);

// Takes a move or a swap back, as a new entry with its own reason. Errors: missing_key without a reason; not_found, conflict where
// the positions hold something else by now; out_of_range for what is no move and no swap.
Result<void> take_back(history::ChangeSet& set, TrayId id, const Shift& shift, const std::string& why);
Result<void> take_back(history::Journal& journal, TrayId id, const Shift& shift, const std::string& why);

// A thing on its way from one tray to the next: where it stood last, and where it was put.
struct Carried {
  std::int64_t from = 0, to = 0;
};

// Those that break the order, by index, in the order given: what is in no longest run that keeps its order, or in one of several
// that are as long. Two neighbours that changed places are both named, one that went to the end alone. A tray with gaps closed
// up, or put behind another, keeps its order. Positions are distinct on either side.
std::vector<std::size_t> out_of_order(std::span<const Carried> carried);

}  // namespace prillbook::trays
