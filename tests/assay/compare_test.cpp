// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/assay/compare.h"

#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include <array>
#include <cmath>

#include "core/assay/grain_sampling.h"

namespace prillbook {
namespace {

using enum UncertaintySource;

MeasuredGrade gold_of(double g_t, std::optional<double> u = {}) {
  return measured(Grade(g_t, unit::gram_per_tonne), u ? std::vector{normal_part(bead_step, *u)} : std::vector<Contribution>{});
}

CompareInput input_of(const MeasuredGrade& pan, const MeasuredGrade& fire) {
  CompareInput input;
  input.pan.gold = pan;
  input.pan.portion = Mass(1, unit::kilogram);
  input.fire.gold = fire;
  input.fire.portion = Mass(100, unit::gram);
  return input;
}

// The closed form: roots of (a - r b)^2 = k^2 (u_a^2 + r^2 u_b^2).
std::array<double, 2> fieller(double a, double u_a, double b, double u_b, double k) {
  const double square = b * b - k * k * u_b * u_b, product = a * b, constant = a * a - k * k * u_a * u_a;
  const double root = std::sqrt(product * product - square * constant);
  return {(product - root) / square, (product + root) / square};
}

TEST(Ratio, AgreesWithTheClosedForm) {
  const std::array<Contribution, 1> a{normal_part(bead_step, 0.3)}, b{normal_part(bead_step, 0.5)};
  const RatioInterval result = ratio_interval(2, a, 5, b);
  const auto [lo, hi] = fieller(2, 0.3, 5, 0.5, coverage_factor(infinite_dof));
  EXPECT_NEAR(result.lo, lo, 1e-9);
  ASSERT_TRUE(result.hi);
  EXPECT_NEAR(*result.hi, hi, 1e-9);
  EXPECT_NEAR(lo, 0.2710, 5e-5);
  EXPECT_NEAR(hi, 0.5610, 5e-5);
}

TEST(Ratio, PoorDenominatorHasNoUpperEnd) {
  const std::array<Contribution, 1> a{normal_part(bead_step, 0.3)}, b{normal_part(bead_step, 3)};
  const RatioInterval result = ratio_interval(2, a, 5, b);
  EXPECT_FALSE(result.hi);
  EXPECT_GT(result.lo, 0);
  EXPECT_LT(result.lo, 0.4);
}

TEST(Ratio, NothingInThePan) {
  const std::array<Contribution, 1> a{rectangle_part(bead_step, -0.5, 0.5)}, b{normal_part(bead_step, 1)};
  const RatioInterval result = ratio_interval(0, a, 50, b);
  EXPECT_EQ(result.lo, 0);
  ASSERT_TRUE(result.hi);
  EXPECT_NEAR(*result.hi, 0.475 / 50, 1e-4);
}

TEST(Compare, WithoutUncertaintyNoVerdict) {
  for (const auto& input : {input_of(gold_of(16.5), gold_of(45)), input_of(gold_of(16.5, 1), gold_of(45))}) {
    const auto result = compare_pan_with_fire(input);
    ASSERT_TRUE(result.ok());
    EXPECT_EQ(result->gold.verdict, Verdict::not_determined);
    EXPECT_FALSE(result->basis || result->gold.recovery_interval || result->gold.lo);
    EXPECT_NEAR(*result->gold.recovery, 16.5 / 45, 1e-12);
  }
}

TEST(Compare, VerdictsByTheIntervalOfTheGap) {
  EXPECT_EQ(compare_pan_with_fire(input_of(gold_of(16.5, 1), gold_of(45, 2)))->gold.verdict, Verdict::gold_left_behind);
  EXPECT_EQ(compare_pan_with_fire(input_of(gold_of(42, 1), gold_of(45, 2)))->gold.verdict, Verdict::no_gap_shown);
  EXPECT_EQ(compare_pan_with_fire(input_of(gold_of(60, 1), gold_of(45, 2)))->gold.verdict, Verdict::pan_exceeds_fire);
}

TEST(Compare, CoarseGrainsTakeTheVerdictBack) {
  CompareInput input = input_of(gold_of(16.5, 1), gold_of(45, 2));
  input.fire.grain = Opening(800, unit::micrometre);
  EXPECT_EQ(compare_pan_with_fire(input)->basis, VerdictBasis::weighing) << "one side alone is no judgement of sampling";
  input.pan.grain = Opening(800, unit::micrometre);
  const auto coarse = compare_pan_with_fire(input);
  EXPECT_EQ(coarse->basis, VerdictBasis::weighing_and_sampling);
  EXPECT_EQ(coarse->gold.verdict, Verdict::no_gap_shown);
  input.fire.grain = input.pan.grain = Opening(50, unit::micrometre);
  EXPECT_EQ(compare_pan_with_fire(input)->gold.verdict, Verdict::gold_left_behind);
  input.pan.u_sampling = Share(10, unit::percent);
  EXPECT_EQ(compare_pan_with_fire(input).error().code, ErrorCode::conflict);
}

TEST(Compare, GrainSamplingIsOneOverTheRootOfTheCount) {
  const Grade grade(45, unit::gram_per_tonne);
  const Mass portion(100, unit::gram);
  const Opening grain(300, unit::micrometre);
  const double n = expected_grains(grade, portion, grain);
  EXPECT_NEAR(n, 4.5 / 0.27285, 0.01);  // 4.5 mg of gold in grains of 0.2728 mg
  EXPECT_NEAR(*grain_sampling_sd(grade, portion, grain) / grade, 1 / std::sqrt(n), 1e-12);
  EXPECT_FALSE(grain_sampling_sd(Grade(), portion, grain));
}

// A pan that caught nothing may have had few grains to catch: its sampling is that of the fire grade, not of its own 0.
TEST(Compare, AnEmptyPanIsSampledAtTheFireGrade) {
  CompareInput input = input_of(gold_of(0, 0.1), gold_of(45, 0.1));
  input.pan.portion = Mass(100, unit::gram);
  input.fire.portion = Mass(100, unit::kilogram);
  input.pan.grain = input.fire.grain = Opening(600, unit::micrometre);  // about two grains in the pan's portion
  const auto result = compare_pan_with_fire(input);
  ASSERT_TRUE(result.ok());
  EXPECT_NEAR(expected_grains(input.fire.gold.value, input.pan.portion, *input.pan.grain), 2.06, 0.01);
  EXPECT_EQ(result->gold.verdict, Verdict::no_gap_shown);
  input.pan.portion = Mass(1, unit::kilogram);
  EXPECT_EQ(compare_pan_with_fire(input)->gold.verdict, Verdict::gold_left_behind);
}

// A rectangle cut on one side: the pan's true gold may lie below its figure only, so the gap may be wider only.
TEST(Compare, OneSidedRectangleOfThePanTurnsOverInTheGap) {
  const MeasuredGrade pan = measured(Grade(40, unit::gram_per_tonne), {rectangle_part(fineness, -8, 0)});
  const auto result = compare_pan_with_fire(input_of(pan, gold_of(45, 0.1)));
  ASSERT_TRUE(result.ok());
  EXPECT_NEAR(result->gold.lo->in(unit::gram_per_tonne), 5, 1e-9);
  EXPECT_NEAR(result->gold.hi->in(unit::gram_per_tonne), 12.8, 0.1);
  EXPECT_NEAR(result->gold.recovery_interval->lo, 32.2 / 45, 2e-3);
  EXPECT_NEAR(*result->gold.recovery_interval->hi, 40.0 / 45, 1e-9);
}

TEST(Compare, NothingInTheFire) {
  const auto result = compare_pan_with_fire(input_of(gold_of(10, 1), gold_of(0, 1)));
  ASSERT_TRUE(result.ok());
  EXPECT_FALSE(result->gold.recovery);
  ASSERT_TRUE(result->gold.recovery_interval);
  EXPECT_FALSE(result->gold.recovery_interval->hi);
  EXPECT_GT(result->gold.recovery_interval->lo, 1);
  EXPECT_EQ(result->gold.verdict, Verdict::pan_exceeds_fire);
}

TEST(Compare, TailAndRemainderMakeTheHead) {
  CompareInput input = input_of(gold_of(16.5, 1), gold_of(45, 2));
  input.tail = Residue{gold_of(10, 1), Mass(940, unit::gram)};
  input.remainder = Residue{gold_of(400, 5), Mass(40, unit::gram)};
  const auto balance = compare_pan_with_fire(input)->balance;
  ASSERT_TRUE(balance);
  const double head = 16.5 + 400 * 0.04 + 10 * 0.94;
  EXPECT_NEAR(balance->calculated_head.g_t(), head, 1e-9);
  EXPECT_NEAR(*balance->recovery_of_head, 16.5 / head, 1e-12);
  EXPECT_NEAR(*balance->gravity_recovery, 32.5 / head, 1e-12);
  EXPECT_NEAR(*balance->closure, head / 45, 1e-12);
  EXPECT_NEAR(balance->unaccounted.in(unit::gram), 20, 1e-9);
  EXPECT_NEAR(balance->calculated_head.spread->u, std::hypot(1, 0.94, 0.2), 1e-9);
  EXPECT_TRUE(balance->warnings.empty());
}

TEST(Compare, MissingRemainderIsNamed) {
  CompareInput input = input_of(gold_of(16.5, 1), gold_of(45, 2));
  input.tail = Residue{gold_of(10, 1), Mass(940, unit::gram)};
  const auto balance = compare_pan_with_fire(input)->balance;
  ASSERT_TRUE(balance);
  EXPECT_FALSE(balance->gravity_recovery);
  ASSERT_EQ(balance->warnings.size(), 1u);
  EXPECT_EQ(balance->warnings[0], BalanceWarning::remainder_missing);
  input.tail->gold = gold_of((0.91 * 45 - 16.5) / 0.94, 1);  // closes at 91 %
  EXPECT_TRUE(compare_pan_with_fire(input)->balance->warnings.empty());
  input.tail->gold = gold_of((0.89 * 45 - 16.5) / 0.94, 1);
  EXPECT_EQ(compare_pan_with_fire(input)->balance->warnings.size(), 1u);
}

TEST(Compare, MoreMassThanThePortion) {
  CompareInput input = input_of(gold_of(16.5, 1), gold_of(20, 2));
  input.tail = Residue{gold_of(10, 1), Mass(1010, unit::gram)};
  ASSERT_TRUE(compare_pan_with_fire(input).ok());
  EXPECT_EQ(compare_pan_with_fire(input)->balance->warnings.front(), BalanceWarning::mass_gain);
  input.tail->mass = Mass(1030, unit::gram);
  EXPECT_EQ(compare_pan_with_fire(input).error().code, ErrorCode::inconsistent);
  input.remainder = input.tail;
  input.tail.reset();
  EXPECT_EQ(compare_pan_with_fire(input).error().code, ErrorCode::missing_key);
}

// The interval of the recovery and that of the gap are one criterion: 100 % lies inside exactly where 0 does.
RC_GTEST_PROP(CompareLaw, RecoveryAndGapAgree, ()) {
  const double pan = *rc::gen::inRange(1, 1000) / 10.0, fire = *rc::gen::inRange(1, 1000) / 10.0;
  const double u_pan = *rc::gen::inRange(1, 200) / 10.0, u_fire = *rc::gen::inRange(1, 200) / 10.0;
  const auto result = compare_pan_with_fire(input_of(gold_of(pan, u_pan), gold_of(fire, u_fire)));
  RC_ASSERT(result.ok());
  const RatioInterval& recovery = *result->gold.recovery_interval;
  RC_ASSERT(recovery.lo <= *result->gold.recovery);
  RC_ASSERT(!recovery.hi || *recovery.hi >= *result->gold.recovery);
  if (result->gold.verdict == Verdict::gold_left_behind) RC_ASSERT(recovery.hi && *recovery.hi < 1 + 1e-9);
  if (result->gold.verdict == Verdict::pan_exceeds_fire) RC_ASSERT(recovery.lo > 1 - 1e-9);
  if (result->gold.verdict == Verdict::no_gap_shown)
    RC_ASSERT(recovery.lo <= 1 + 1e-9 && (!recovery.hi || *recovery.hi >= 1 - 1e-9));
}

RC_GTEST_PROP(CompareLaw, BalanceClosesOnItself, ()) {
  CompareInput input = input_of(gold_of(*rc::gen::inRange(0, 1000) / 10.0), gold_of(*rc::gen::inRange(1, 1000) / 10.0));
  const double tail = *rc::gen::inRange(1, 900), remainder = *rc::gen::inRange(1, 100);
  input.tail = Residue{gold_of(*rc::gen::inRange(0, 500) / 10.0), Mass(tail, unit::gram)};
  input.remainder = Residue{gold_of(*rc::gen::inRange(0, 5000) / 10.0), Mass(remainder, unit::gram)};
  const auto result = compare_pan_with_fire(input);
  RC_ASSERT(result.ok());
  const PanBalance& balance = *result->balance;
  RC_PRE(balance.gravity_recovery.has_value());
  const double in_tail = input.tail->gold.g_t() * tail / 1000 / balance.calculated_head.g_t();
  RC_ASSERT(std::abs(*balance.gravity_recovery + in_tail - 1) < 1e-9);
  RC_ASSERT(*balance.recovery_of_head <= *balance.gravity_recovery + 1e-12);
}

}  // namespace
}  // namespace prillbook
