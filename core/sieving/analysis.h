// SPDX-License-Identifier: GPL-3.0-or-later
// One sieve analysis: masses on the sieves to a curve, with the balance of masses checked.
#pragma once

#include <optional>
#include <string_view>
#include <vector>

#include "core/base/result.h"
#include "core/sieving/series.h"
#include "core/units/units.h"

namespace prillbook {

struct SieveCut {
  Opening opening;  // > 0
  Mass retained;    // >= 0
};

struct SieveAnalysis {
  Mass portion;                // before sieving, > 0
  std::vector<SieveCut> cuts;  // at least one, any order
  Mass pan;                    // >= 0
  std::optional<SieveSeries> series;
  Share max_loss{0.3, unit::percent};  // ASTM C136: the sum agrees with the mass before within 0.3 %
  std::optional<Mass> step;            // of the balance
};

enum class SieveWarning {
  loss_above_limit,       // more was lost than the limit allows
  gain_above_limit,       // more was found than was put in, beyond the limit
  wide_bracket,           // the openings either side of P80 differ more than twofold
  opening_not_in_series,  // at least one opening is no sieve of the named series
};
std::string_view contract_name(SieveWarning warning);

struct SieveRow {
  Opening opening;
  double retained_pct = 0;
  double cumulative_retained_pct = 0;
  double passing_pct = 0;
};

// Where a percentage passing lies against the sieves used.
enum class SizeStatus { inside, above_top_sieve, below_bottom_sieve };
std::string_view contract_name(SizeStatus status);

struct PassingSize {
  SizeStatus status = SizeStatus::inside;
  std::optional<Opening> size;  // absent unless inside
  double bracket_ratio = 1;     // coarser over finer opening either side; 1 where the size is itself a sieve
};

struct SieveResult {
  Mass total;           // everything weighed after sieving
  double loss_pct = 0;  // (portion - total)/portion, negative for a gain
  double pan_pct = 0;
  std::vector<SieveRow> rows;  // sieves only, coarse to fine; per cent of the total
  PassingSize p80, p50;
  std::vector<SieveWarning> warnings;
};

// Percentages are of the total found after sieving. The limit for loss and gain is the larger of max_loss and, where
// the step is known, 2 u of the weighings: u = step/√12 for each of the cuts, the pan and the portion.
// Errors: too_small (no cut), conflict (one opening twice; field cuts[i].opening_um of the second),
// inconsistent (nothing was found after sieving, field cuts; a gain above 2 %, field portion_g),
// out_of_range, not_finite (a figure outside the domains above).
Result<SieveResult> analyse(const SieveAnalysis& analysis);

// The limit that loss and gain are held against, in per cent of the portion.
double loss_limit_pct(const SieveAnalysis& analysis);

// The curve while the pan is not weighed yet: what has not been found so far counts as finer than every sieve weighed.
// Domain: portion > 0; openings differ. A sum above the portion counts as all of it.
std::vector<SieveRow> rows_so_far(Mass portion, std::vector<SieveCut> weighed);

// Size that `percent` passes: linear in per cent passing over the logarithm of size, between the two sieves either
// side and never beyond them. On a level stretch of the curve the finest size counts.
// Domain: rows coarse to fine, not empty; 0 < percent < 100.
PassingSize passing_size(const std::vector<SieveRow>& rows, double percent);

// Most a sieve should carry at the end of sieving. Below 4.75 mm 7 kg/m², from there 2.5 kg/m² for each mm of opening.
// Source: ASTM C136, 8.3 and table 1. Domain: opening > 0, area > 0.
Mass overload_limit(Opening opening, double area_m2);
// Open area of a round sieve: the cloth ends 6.4 mm inside the frame (an 8-inch frame has 0.0285 m², a 12-inch one
// 0.0670 m²; ASTM C136, table 1). Domain: diameter > 0.
double sieving_area_m2(Opening diameter);

}  // namespace prillbook
