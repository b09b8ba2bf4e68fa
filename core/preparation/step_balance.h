// SPDX-License-Identifier: GPL-3.0-or-later
// What went in and what came out of one step.
#pragma once

#include <vector>

#include "core/base/result.h"
#include "core/units/units.h"

namespace prillbook {

struct Weighed {
  Mass mass;
  Mass step;  // smallest change of the balance, or the last digit as it was written down; >= 0
};

struct StepBalance {
  Mass in, out;
  Mass loss;            // in - out; below 0: a gain
  double loss_pct = 0;  // of what went in
  Mass u;               // standard uncertainty of the loss: step/√12 each, in and every out
  bool beyond = false;  // the loss or gain is above the limit and above twice u
};

// Errors: out_of_range (in not above 0, out below 0), too_small (nothing came out).
// Source of step/√12: JCGM 100, a rectangle of the width of one step.
Result<StepBalance> balance_step(const Weighed& in, const std::vector<Weighed>& out, double limit_pct);

}  // namespace prillbook
