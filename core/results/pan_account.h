// SPDX-License-Identifier: GPL-3.0-or-later
// The balance of one pan test as it stands: its mass, and the gold found in the bead, the concentrate remainder and the
// tail against what fire says the portion held. Formulas: docs/methods-pan.md, "The balance of a pan test".
#pragma once

#include <functional>
#include <optional>
#include <string>
#include <vector>

#include "core/results/sample_record.h"
#include "core/results/test_result.h"

namespace prillbook::results {

// A mass of gold; `lo` and `hi` are the ends of the 95 % interval, absent where an uncertainty is missing.
struct GoldMass {
  Mass value;
  std::vector<Contribution> parts;  // in mg
  std::optional<Mass> lo, hi;
};

enum class GoldBalance {
  incomplete,      // an assay or a mass is missing: `missing`
  not_determined,  // an uncertainty is missing
  closes,          // the interval of what is not accounted for holds 0
  short_of_head,   // less was found than fire says
  over_head,       // more
};

struct PanAccount {
  PanTestId test;
  PortionId portion;
  std::string label;  // "26-0003/2"
  std::optional<Mass> mass, free_gold, remainder, tail, magnetite;
  std::optional<Mass>
      not_accounted;  // portion less all of them; below 0 a gain; absent until portion, remainder and tail are weighed
  std::optional<GoldMass> in_bead, in_remainder, in_tail;
  std::optional<GoldMass> found;     // their sum, of those that are known
  std::optional<GoldMass> head;      // mean of fire times the dry portion
  std::optional<GoldMass> gold_gap;  // head less found
  std::vector<std::string> missing;  // "the bead", "the remainder", "the tail", "fire"
  GoldBalance verdict = GoldBalance::incomplete;
  bool sampling_judged = false;
};

// What fire says of the rock; no grade: it says nothing.
struct HeadByFire {
  const MeasuredGrade* grade = nullptr;
  Mass dry_portions;
};

PanAccount pan_account(const SampleRecord& record, const TestResult& pan, const HeadByFire& fire,
                       const std::function<TestResult(const FireEntry&)>& charge);

// The sieve analysis of the same split: its portion was cut from the same parent in the same step. nullptr where there is
// none, or none that is not spoiled; the newest counts.
const sieves::Analysis* sieved_beside(const SampleRecord& record, PortionId panned);

}  // namespace prillbook::results
