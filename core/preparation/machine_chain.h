// SPDX-License-Identifier: GPL-3.0-or-later
// What a machine holds as one sample after another goes through it.
#pragma once

#include <vector>

#include "core/preparation/carry_over.h"

namespace prillbook {

// What is in the machine: rock of the hold-up or less, and its grade.
struct Held {
  Mass mass;
  Grade grade;
};

struct Passage {
  Mass mass;                  // > 0
  Grade grade;                // >= 0
  std::vector<Mass> flushes;  // barren rock put through before it, in order; each > 0
  double left_share = 1;      // 0 to 1: of what was held, left by brushing, blowing and wiping before it
};

struct PassageRisk {
  CarryOverResult carried;  // as mix_carryover
  Mass foreign;             // metal of earlier rock in this sample
  Held after;
};

// Domain: share 0 to 1.
Held brushed(const Held& held, double left_share);
// After one flush the machine is full of the mixture. Errors: out_of_range.
Result<Held> flushed(Mass holdup, const Held& held, Mass flush);

// Brushing takes rock away, a flush and a sample mix with what is held and leave the hold-up full of the mixture.
// Domain: holdup >= 0. Errors: out_of_range.
Result<PassageRisk> pass_through(Mass holdup, const Held& held, const Passage& passage);
Result<std::vector<PassageRisk>> pass_all(Mass holdup, Held held, const std::vector<Passage>& passages);

}  // namespace prillbook
