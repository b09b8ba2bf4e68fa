// SPDX-License-Identifier: GPL-3.0-or-later
// Duplicates beside what they duplicate.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "core/quality/pairs.h"
#include "core/results/test_reader.h"

namespace prillbook::results {

enum class ControlVerdict { waiting, within, warning, outside, not_judged };

struct DuplicatePair {
  SingleTest first, second;         // `second` is the duplicate
  std::optional<double> apart_pct;  // |a - b| in per cent of the mean; absent until both have gold
  double limit_pct = 0;
  ControlVerdict verdict = ControlVerdict::waiting;
};

// Outside where the two lie further apart than the lab's limit for the kind and than 1.96 times their uncertainty: of a small
// bead the step of the balance alone may part them further than the limit. Errors: not_found, damaged; inconsistent where
// `second` is no duplicate.
Result<DuplicatePair> pair_of(TestReader& reader, SingleTest second);

// Charges and pan tests, the newest pairs first. Errors: damaged.
Result<std::vector<DuplicatePair>> duplicate_pairs(TestReader& reader, std::int64_t most);

// Those that can be compared: both have gold, and not both none.
std::vector<const DuplicatePair*> comparable(const std::vector<DuplicatePair>& pairs);
// The gold of these, in g/t, in the same order.
std::vector<Pair> gold_pairs(const std::vector<DuplicatePair>& pairs);

}  // namespace prillbook::results
