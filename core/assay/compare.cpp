// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/assay/compare.h"

#include <algorithm>
#include <cmath>
#include <string>

#include "core/assay/grain_sampling.h"

namespace prillbook {
namespace {

using Parts = std::vector<Contribution>;

Result<void> check_side(const CompareSide& side, const std::string& name) {
  if (!(side.portion > Mass())) return refusal(ErrorCode::out_of_range, name + ".portion_g", "a portion is above 0");
  if (side.grain && side.u_sampling)
    return refusal(ErrorCode::conflict, name + ".u_sampling_pct", "a grain size and a sampling uncertainty answer one question");
  if (side.grain && !(*side.grain > Opening()))
    return refusal(ErrorCode::out_of_range, name + ".grain_um", "a grain size is above 0");
  if (side.u_sampling && !(*side.u_sampling >= Share()))
    return refusal(ErrorCode::out_of_range, name + ".u_sampling_pct", "an uncertainty is not below 0");
  return {};
}

Result<void> check(const CompareInput& input) {
  PRILLBOOK_TRY(check_side(input.pan, "pan"));
  PRILLBOOK_TRY(check_side(input.fire, "fire"));
  if (input.remainder && !input.tail)
    return refusal(ErrorCode::missing_key, "tail", "the balance of a pan test needs the tail beside the remainder");
  if (!input.tail) return {};
  if (!(input.tail->mass >= Mass())) return refusal(ErrorCode::out_of_range, "tail.tail_mass_g", "a mass is not below 0");
  if (input.remainder && !(input.remainder->mass >= Mass()))
    return refusal(ErrorCode::out_of_range, "remainder.remainder_mass_g", "a mass is not below 0");
  const Mass found = input.tail->mass + (input.remainder ? input.remainder->mass : Mass());
  if (found > input.pan.portion * 1.02)
    return refusal(ErrorCode::inconsistent, "tail.tail_mass_g", "tail and remainder weigh more than the panned portion");
  return {};
}

// Relative sampling SD of a side, and the grade it applies to: its own, or the fire grade where grains are counted.
struct Sampling {
  double relative;
  bool of_fire;
};

std::optional<Sampling> sampling_of(const CompareSide& side, Grade fire_gold) {
  if (side.u_sampling) return Sampling{side.u_sampling->in(unit::percent) / 100, false};
  if (!side.grain) return std::nullopt;
  const double grains = expected_grains(fire_gold, side.portion, *side.grain);
  if (!(grains > 0)) return std::nullopt;
  return Sampling{1 / std::sqrt(grains), true};
}

Parts with_sampling(const MeasuredGrade& grade, const std::optional<Sampling>& sampling, Grade fire) {
  Parts parts = grade.parts;
  if (sampling) {
    const double g_t = (sampling->of_fire ? fire : grade.value).in(unit::gram_per_tonne);
    parts.push_back(normal_part(UncertaintySource::sampling, sampling->relative * g_t));
  }
  return parts;
}

Gap gap_of(const MeasuredGrade& pan, const Parts& pan_parts, const MeasuredGrade& fire, const Parts& fire_parts) {
  Gap gap;
  gap.value = fire.value - pan.value;
  if (fire.value > Grade()) gap.recovery = pan.value / fire.value;
  if (pan_parts.empty() || fire_parts.empty()) return gap;

  Parts parts = fire_parts;
  for (const Contribution& part : pan_parts) parts.push_back(scaled(part, -1));
  const Spread around = spread(gap.value.in(unit::gram_per_tonne), parts);
  // A figure at the edge of a cut rectangle stays inside its interval.
  gap.lo = std::min(Grade(around.lo, unit::gram_per_tonne), gap.value);
  gap.hi = std::max(Grade(around.hi, unit::gram_per_tonne), gap.value);
  gap.verdict = *gap.lo > Grade()   ? Verdict::gold_left_behind
                : *gap.hi < Grade() ? Verdict::pan_exceeds_fire
                                    : Verdict::no_gap_shown;
  if (std::isfinite(around.u)) gap.recovery_interval = ratio_interval(pan.g_t(), pan_parts, fire.g_t(), fire_parts);
  return gap;
}

MeasuredGrade calculated_head(const CompareInput& input) {
  MeasuredGrade head = input.pan.gold;
  bool known = !head.parts.empty();
  const auto add = [&](const std::optional<Residue>& residue) {
    if (!residue) return;
    const double weight = residue->mass / input.pan.portion;
    head.value += residue->gold.value * weight;
    known = known && !residue->gold.parts.empty();
    for (const Contribution& part : residue->gold.parts) head.parts.push_back(scaled(part, weight));
  };
  add(input.remainder);
  add(input.tail);
  return measured(head.value, known ? head.parts : Parts{});
}

std::optional<PanBalance> balance_of(const CompareInput& input) {
  if (!input.tail) return std::nullopt;
  PanBalance balance;
  balance.calculated_head = calculated_head(input);
  const Grade head = balance.calculated_head.value, pan = input.pan.gold.value;
  balance.unaccounted = input.pan.portion - input.tail->mass;
  if (input.remainder) balance.unaccounted -= input.remainder->mass;
  if (head > Grade()) {
    balance.recovery_of_head = pan / head;
    if (input.remainder)
      balance.gravity_recovery = (pan + input.remainder->gold.value * (input.remainder->mass / input.pan.portion)) / head;
  }
  if (input.fire.gold.value > Grade()) balance.closure = head / input.fire.gold.value;
  if (!input.remainder && balance.closure && *balance.closure < 0.9)
    balance.warnings.push_back(BalanceWarning::remainder_missing);
  if (balance.unaccounted < Mass()) balance.warnings.push_back(BalanceWarning::mass_gain);
  return balance;
}

// Finite also in per cent, as ratios leave.
bool finite(double ratio) { return std::isfinite(100 * ratio); }
bool finite(const std::optional<Grade>& grade) { return !grade || std::isfinite(grade->in(unit::gram_per_tonne)); }

bool finite(const Gap& gap) {
  if (!finite(std::optional(gap.value)) || !finite(gap.lo) || !finite(gap.hi) || !finite(gap.recovery.value_or(0))) return false;
  return !gap.recovery_interval || (finite(gap.recovery_interval->lo) && finite(gap.recovery_interval->hi.value_or(0)));
}

bool finite(const PanBalance& balance) {
  return finite(std::optional(balance.calculated_head.value)) && finite(balance.closure.value_or(0));
}

}  // namespace

std::string_view verdict_name(Verdict verdict) {
  switch (verdict) {
    case Verdict::gold_left_behind: return "gold_left_behind";
    case Verdict::no_gap_shown: return "no_gap_shown";
    case Verdict::pan_exceeds_fire: return "pan_exceeds_fire";
    case Verdict::not_determined: return "not_determined";
  }
  return "";
}

std::string_view basis_name(VerdictBasis basis) { return basis == VerdictBasis::weighing ? "weighing" : "weighing_and_sampling"; }

std::string_view warning_name(BalanceWarning warning) {
  return warning == BalanceWarning::remainder_missing ? "remainder_missing" : "mass_gain";
}

Result<CompareSide> compare_side(const GradeResult& result) {
  if (!result.gold) return refusal(ErrorCode::missing_key, "fineness_permil", "without a fineness the gold is not known");
  CompareSide side;
  side.gold = *result.gold;
  side.silver = result.silver;
  side.fineness_known = result.fineness_known;
  side.portion = result.dry_portion;
  return side;
}

Result<Comparison> compare_pan_with_fire(const CompareInput& input) {
  PRILLBOOK_TRY(check(input));
  const Grade fire_gold = input.fire.gold.value;
  std::optional<Sampling> pan = sampling_of(input.pan, fire_gold), fire = sampling_of(input.fire, fire_gold);
  if (!pan || !fire) pan = fire = std::nullopt;  // one side alone would shift the verdict

  Comparison result;
  result.gold_sides = {input.pan.gold.g_t(), input.fire.gold.g_t(), with_sampling(input.pan.gold, pan, fire_gold),
                       with_sampling(input.fire.gold, fire, fire_gold)};
  result.gold = gap_of(input.pan.gold, result.gold_sides.pan_parts, input.fire.gold, result.gold_sides.fire_parts);
  if (result.gold.verdict != Verdict::not_determined)
    result.basis = pan ? VerdictBasis::weighing_and_sampling : VerdictBasis::weighing;
  result.silver_asked = input.pan.fineness_known && input.fire.fineness_known;
  if (input.pan.silver && input.fire.silver) {
    const Grade fire_silver = input.fire.silver->value;
    result.silver = gap_of(*input.pan.silver, with_sampling(*input.pan.silver, pan, fire_silver), *input.fire.silver,
                           with_sampling(*input.fire.silver, fire, fire_silver));
  }
  result.balance = balance_of(input);
  if (!finite(result.gold) || (result.silver && !finite(*result.silver)) || (result.balance && !finite(*result.balance)))
    return refusal(ErrorCode::not_finite, "fire.portion_g", "the comparison is not finite");
  return result;
}

}  // namespace prillbook
