// SPDX-License-Identifier: GPL-3.0-or-later
// Pan against fire: how much of the gold the pan caught, and whether the gap is more than chance.
// Formulas and sources: docs/methods.md, "Pan against fire".
#pragma once

#include <optional>
#include <string_view>
#include <vector>

#include "core/assay/grade.h"

namespace prillbook {

struct CompareSide {
  MeasuredGrade gold;
  std::optional<MeasuredGrade> silver;
  bool fineness_known = true;       // false: silver was never in question on this side
  Mass portion;                     // dry, > 0
  std::optional<Opening> grain;     // gold grain of this portion, or
  std::optional<Share> u_sampling;  // its relative standard uncertainty by sampling
};

// Errors: missing_key (fineness_permil) where the result holds no gold.
Result<CompareSide> compare_side(const GradeResult& result);

// What stayed behind in the pan test: the tail, or the concentrate once the free gold is drawn off.
struct Residue {
  MeasuredGrade gold;
  Mass mass;  // dry
};

struct CompareInput {
  CompareSide pan, fire;
  std::optional<Residue> tail, remainder;
};

enum class Verdict {
  gold_left_behind,  // the whole interval of the gap lies above 0
  no_gap_shown,
  pan_exceeds_fire,  // the whole interval lies below 0
  not_determined,    // an uncertainty is missing on one side or both
};
std::string_view verdict_name(Verdict verdict);

enum class VerdictBasis { weighing, weighing_and_sampling };
std::string_view basis_name(VerdictBasis basis);

struct RatioInterval {
  double lo = 0;
  std::optional<double> hi;  // absent: no upper end, the denominator may be 0
};

// One metal's pan against its fire.
struct Gap {
  std::optional<double> recovery;  // a fraction; absent where fire is 0
  std::optional<RatioInterval> recovery_interval;
  Grade value;  // fire - pan
  std::optional<Grade> lo, hi;
  Verdict verdict = Verdict::not_determined;
};

enum class BalanceWarning {
  remainder_missing,  // the tail was assayed, the remainder not, and closure is below 90 %
  mass_gain,          // tail and remainder weigh more than the portion
};
std::string_view warning_name(BalanceWarning warning);

// With a tail: the gold found again in the pan test itself.
struct PanBalance {
  MeasuredGrade calculated_head;
  std::optional<double> recovery_of_head;  // free gold, a fraction; absent where no gold was found at all
  std::optional<double> gravity_recovery;  // free gold and remainder; absent without a remainder
  std::optional<double> closure;           // calculated head over fire; absent where fire is 0
  Mass unaccounted;                        // portion - remainder - tail; below 0: a gain
  std::vector<BalanceWarning> warnings;
};

// What the gap of the gold was made of, in g/t; sampling is among the parts where it was allowed for.
struct GoldSides {
  double pan = 0, fire = 0;
  std::vector<Contribution> pan_parts, fire_parts;
};

struct Comparison {
  Gap gold;
  GoldSides gold_sides;
  std::optional<VerdictBasis> basis;  // absent where the verdict is not determined
  std::optional<Gap> silver;          // where both beads have a silver figure
  bool silver_asked = false;          // both beads have a fineness
  std::optional<PanBalance> balance;  // with a tail
};

// Sampling enters where both sides give it. Errors: conflict (pan.u_sampling_pct beside pan.grain_um, same for fire),
// missing_key (tail: a remainder without it), out_of_range, inconsistent (tail.tail_mass_g: tail and remainder above 102 %
// of the portion), not_finite.
Result<Comparison> compare_pan_with_fire(const CompareInput& input);

// All ratios r for which 0 lies in the 95 % interval of a - r b (Fieller's criterion; exact for normal parts). Lower end not
// below 0. Domain: b > 0 or b = 0, a >= 0.
RatioInterval ratio_interval(double a, std::span<const Contribution> a_parts, double b, std::span<const Contribution> b_parts);

}  // namespace prillbook
