// SPDX-License-Identifier: GPL-3.0-or-later
// What stays in a machine, learned from the barren rock that was put through it and assayed.
#pragma once

#include <optional>
#include <vector>

#include "core/base/result.h"
#include "core/units/units.h"

namespace prillbook {

struct FlushAssay {
  Grade before;                         // of what went through last
  Mass flush;                           // > 0: barren rock put through
  Grade flushed;                        // gold in it afterwards
  Grade barren;                         // gold in it before
  Grade u_before, u_flushed, u_barren;  // standard uncertainties, >= 0
};

struct HoldUp {
  Mass mass;
  Mass u;                                       // standard uncertainty
  Mass half_width() const { return u * 1.96; }  // at 95 %
};

// Hold-up = (flushed - barren) × flush/(before - flushed): full mixing turned round. A lower bound, since gold smeared on
// the plates comes off slowly. Common practice, no source.
// Errors: out_of_range (a figure below 0 or not finite, flush 0), inconsistent (flush not richer than barren, or not
// poorer than what went before: it says nothing about the machine).
Result<HoldUp> holdup_of(const FlushAssay& assay);

// The mean of several flushes; its uncertainty is the larger of what each carries and of their scatter. Empty: none.
std::optional<HoldUp> mean_holdup(const std::vector<HoldUp>& flushes);

}  // namespace prillbook
