// SPDX-License-Identifier: GPL-3.0-or-later
// Recovery of a separation into concentrate and tail from three grades.
#pragma once

#include "core/base/result.h"
#include "core/units/units.h"

namespace prillbook {

struct TwoProduct {
  double recovery_pct = 0;    // of the metal
  double mass_yield_pct = 0;  // of the mass
  double enrichment = 0;      // concentrate ÷ feed
};

// Yield = (f - t)/(c - t), recovery = c (f - t)/(f (c - t)). Domain: feed > 0, concentrate > 0, tail >= 0.
// Source: the two-product formula of the mineral-dressing textbooks; worked example in tests/published.
// Errors: inconsistent where the feed does not lie between tail and concentrate (field feed_g_t), or the concentrate
// is no richer than the tail (field concentrate_g_t); out_of_range.
Result<TwoProduct> two_product(Grade feed, Grade concentrate, Grade tail);

}  // namespace prillbook
