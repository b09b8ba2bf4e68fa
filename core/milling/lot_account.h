// SPDX-License-Identifier: GPL-3.0-or-later
// Where the gold of a milled lot went: head against bullion, concentrate and tail, and the split with its owner.
#pragma once

#include <optional>
#include <vector>

#include "core/milling/milling_lots.h"

namespace prillbook::milling {

// A value with its standard uncertainty.
struct Measured {
  double value = 0, u = 0;

  double lo() const { return value - 2 * u; }  // about 95 %
  double hi() const { return value + 2 * u; }
};

// Gold in grams. What can not be told is absent.
struct LotAccount {
  std::optional<Mass> dry;           // milled
  std::optional<Mass> tail;          // dry, less the concentrate: it is not weighed
  std::optional<Measured> head_g_t;  // as entered, or as fire assay found it
  bool head_by_fire = false;
  std::optional<Measured> head, bullion, concentrate, tail_gold;
  std::optional<Measured> accounted, unaccounted;  // with head, bullion and tail at least
  std::optional<Measured> accounted_pct;           // of the head
  std::optional<Measured> owner, mill;             // of the gold in the bullion
  bool concentrate_open = false;                   // it was weighed and not assayed
};

// Dry mass = mass (1 - moisture); gold of the tail = its grade times (dry mass - concentrate); accounted = bullion +
// concentrate + tail; unaccounted = head - accounted, negative where more was found than the head had. Taggart's metal
// balance, from memory; the printed balance in tests/milling has the same lines. Uncertainties first order, each reading
// that of its last place (rectangular); a figure below detection counts as half its limit, and one not seen as zero.
// `fire`: gold of the sample by fire, g/t. Errors: inconsistent where the concentrate is heavier than what was milled.
Result<LotAccount> account_of(const MillingLot& lot, const std::optional<Measured>& fire);

}  // namespace prillbook::milling
