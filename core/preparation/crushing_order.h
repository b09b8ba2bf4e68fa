// SPDX-License-Identifier: GPL-3.0-or-later
// In which order waiting samples should go through a machine, and where barren rock is owed between them.
#pragma once

#include <cstdint>
#include <optional>
#include <vector>

#include "core/base/result.h"
#include "core/preparation/machine_chain.h"

namespace prillbook {

struct WaitingRock {
  std::int64_t id = 0;
  Mass mass;                        // > 0
  Grade grade;                      // >= 0: assayed, or what is expected
  std::optional<std::int64_t> due;  // any unit, smaller is sooner; absent: not urgent
};

struct OrderRules {
  Mass holdup;                            // >= 0
  Held held;                              // what the machine holds now
  double limit_pct = 1;                   // > 0: carry-over in per cent of the sample's own grade
  Grade floor;                            // > 0: below this grade the limit is taken of this
  Mass flush;                             // > 0: barren rock of one flush
  int most_flushes = 5;                   // between two samples
  std::int64_t urgent_until = INT64_MIN;  // samples due by then go first
};

struct OrderedRock {
  std::int64_t id = 0;
  int flushes = 0;           // before it
  Grade carryover;           // estimated, after the flushes; below 0 where the machine held poorer rock
  double carryover_pct = 0;  // of its own grade, or of the floor; at least 0
  bool above_limit = false;  // in spite of the flushes
};

struct CrushingOrder {
  std::vector<OrderedRock> places;
  Mass flush_total;
  Mass foreign_metal;  // carried into samples above what they would have had, all together
};

// Urgent samples first, and in each group poor to rich; of two equally rich the one that waits longer, as they are given.
// Where the urgent and the others are taken poor to rich and it would carry more than arrival order within them would,
// arrival order is kept. Errors: out_of_range.
Result<CrushingOrder> crushing_order(const std::vector<WaitingRock>& waiting, const OrderRules& rules);
// The same figures for the samples in the order in which they are given.
Result<CrushingOrder> as_given(const std::vector<WaitingRock>& waiting, const OrderRules& rules, bool with_flushes = true);

}  // namespace prillbook
