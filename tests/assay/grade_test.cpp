// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/assay/grade.h"

#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include <cmath>

#include "tests/support/masses.h"

namespace prillbook {
namespace {

double g_t(Grade grade) { return grade.in(unit::gram_per_tonne); }

GradeInput bead_of(double portion_g, double bead_mg) {
  GradeInput input;
  input.portion = g(portion_g);
  input.bead = {mg(bead_mg)};
  return input;
}

FinenessReading fine(double permil, std::optional<FinenessMethod> method = {}) {
  return {Fineness(permil, unit::permil), method, {}, {}, {}};
}

ErrorCode refusal_of(const GradeInput& input) {
  const auto result = bead_to_grade(input);
  EXPECT_FALSE(result.ok());
  return result.ok() ? ErrorCode::cancelled : result.error().code;
}

TEST(Grade, NothingIsSaidOfTheUncertaintyWhereNoneWasGiven) {
  GradeInput input = bead_of(30, 1.5);
  input.fineness = fine(800);
  const auto result = bead_to_grade(input);
  ASSERT_TRUE(result.ok());
  EXPECT_FALSE(result->bead.spread || result->gold->spread || result->gold->lo || result->gold->hi);
  EXPECT_TRUE(result->budget.empty());
}

TEST(Grade, TaredReadingsCountTwice) {
  GradeInput input = bead_of(30, 0.150);
  input.balance_step = mg(0.001);
  input.portion_step = g(0.01);
  const double zeroed = bead_to_grade(input)->bead.spread->u;
  input.tared = true;
  const double tared = bead_to_grade(input)->bead.spread->u;
  EXPECT_NEAR(zeroed / 5, std::hypot(0.001 / 0.15, 0.01 / 30) / std::sqrt(12.0), 1e-9);
  EXPECT_NEAR(tared / zeroed, std::sqrt(2.0), 1e-9);
}

TEST(Grade, RepeatsGiveMeanAndScatter) {
  GradeInput input = bead_of(30, 0);
  input.bead = {mg(1.50), mg(1.52), mg(1.49)};
  const auto own = bead_to_grade(input);
  ASSERT_TRUE(own.ok());
  EXPECT_NEAR(own->bead.g_t(), 1.50333333 / 30 * 1000, 1e-6);
  EXPECT_EQ(own->bead.spread->dof, 2);
  EXPECT_NEAR(own->bead.spread->k, 4.303, 1e-3);
  input.repeat_sd = mg(0.006);
  const auto given = bead_to_grade(input);
  EXPECT_NEAR(given->bead.spread->u, 0.006 / std::sqrt(3.0) / 30 * 1000, 1e-9);
  EXPECT_NEAR(given->bead.spread->k, 1.960, 1e-3);
}

TEST(Grade, LossesAreTwoNumbers) {
  GradeInput input = bead_of(20, 10);
  input.fineness = fine(600);
  input.gold_loss = Share(0.5, unit::percent);
  input.silver_loss = Share(4, unit::percent);
  const auto result = bead_to_grade(input);
  ASSERT_TRUE(result.ok());
  EXPECT_NEAR(result->gold->g_t(), 6 / 0.995 / 20 * 1000, 1e-9);
  EXPECT_NEAR(result->silver->g_t(), 4 / 0.96 / 20 * 1000, 1e-9);
  EXPECT_NEAR(result->bead.g_t(), result->gold->g_t() + result->silver->g_t(), 1e-9);
}

TEST(Grade, RecoveredMetalIsSilverUnlessItsGoldIsKnown) {
  GradeInput input = bead_of(20, 10);
  input.gold = mg(6);
  input.slag = mg(1);
  input.cupel = mg(0.5);
  EXPECT_NEAR(bead_to_grade(input)->silver->g_t(), 5.5 / 20 * 1000, 1e-9);
  EXPECT_NEAR(bead_to_grade(input)->recovered->g_t(), 1.5 / 20 * 1000, 1e-9);
  EXPECT_FALSE(bead_to_grade(input)->recovered_gold) << "not found";
  input.slag_gold = mg(0.4);
  EXPECT_NEAR(bead_to_grade(input)->gold->g_t(), 6.4 / 20 * 1000, 1e-9);
  EXPECT_NEAR(bead_to_grade(input)->silver->g_t(), 5.1 / 20 * 1000, 1e-9);
  EXPECT_NEAR(bead_to_grade(input)->recovered_gold->g_t(), 0.4 / 20 * 1000, 1e-9);
  EXPECT_FALSE(bead_to_grade(bead_of(20, 10))->recovered) << "nothing was recovered";
}

TEST(Grade, DryBasis) {
  GradeInput input = bead_of(100, 9);
  input.moisture = Share(10, unit::percent);
  EXPECT_NEAR(bead_to_grade(input)->bead.g_t(), 100, 1e-9);
  EXPECT_NEAR(bead_to_grade(input)->dry_portion.in(unit::gram), 90, 1e-12);
}

TEST(Grade, PartedFinenessCountsItsWeighingsOnce) {
  GradeInput by_fineness = bead_of(30, 1.5), by_mass = bead_of(30, 1.5);
  by_fineness.fineness = fine(800, FinenessMethod::parted);
  by_mass.gold = mg(1.2);
  by_fineness.balance_step = by_mass.balance_step = mg(0.01);
  EXPECT_NEAR(bead_to_grade(by_fineness)->gold->spread->u, bead_to_grade(by_mass)->gold->spread->u, 1e-12);
  EXPECT_NEAR(bead_to_grade(by_mass)->gold->spread->u, 0.01 / std::sqrt(12.0) / 30 * 1000, 1e-12);
}

TEST(Grade, TouchstoneDominatesAndItsRectangleSetsTheInterval) {
  GradeInput input = bead_of(30, 1.5);
  input.fineness = fine(800, FinenessMethod::touchstone);
  input.balance_step = mg(0.001);
  const auto result = bead_to_grade(input);
  ASSERT_TRUE(result.ok());
  EXPECT_EQ(result->gold->spread->method, IntervalMethod::convolution);
  EXPECT_LT(g_t(*result->gold->hi), 41.5);
  EXPECT_NEAR(g_t(*result->gold->hi), 40 + 0.95 * 1.5, 0.01);
  EXPECT_LT(g_t(*result->gold->hi), 40 + 1.96 * result->gold->spread->u);
  ASSERT_FALSE(result->budget.empty());
  EXPECT_EQ(result->budget.front().source, UncertaintySource::fineness);
  EXPECT_GT(result->budget.front().share_pct, 99);
}

TEST(Grade, GoldNeverAboveTheBeadsUpperLimit) {
  GradeInput input = bead_of(30, 1.5);
  input.fineness = fine(995);
  input.fineness->u = Fineness(40, unit::permil);
  input.balance_step = mg(0.01);
  const auto result = bead_to_grade(input);
  EXPECT_NEAR(g_t(*result->gold->hi), 50 + 0.95 * 0.005 / 30 * 1000, 1e-9);
}

TEST(Grade, GoldStaysInABeadWhoseWeighingIsNotKnown) {
  GradeInput input = bead_of(30, 1.5);
  input.fineness = fine(995);
  input.fineness->u = Fineness(40, unit::permil);
  EXPECT_NEAR(g_t(*bead_to_grade(input)->gold->hi), 50, 1e-9);
  input.blank = mg(0.003);
  EXPECT_NEAR(g_t(*bead_to_grade(input)->gold->hi), 49.9, 1e-9);
}

TEST(Grade, WhiteBeadIsOneClass) {
  GradeInput input = bead_of(30, 1.5);
  input.fineness = white_bead();
  const auto result = bead_to_grade(input);
  ASSERT_TRUE(result.ok());
  EXPECT_NEAR(g_t(*result->gold->lo), 0.025 * 27.5, 1e-9);
  EXPECT_NEAR(g_t(*result->gold->hi), 0.975 * 27.5, 1e-9);
}

TEST(Grade, NoneSeenHasAnUpperLimitFromTheStep) {
  GradeInput input = bead_of(30, 0);
  auto result = bead_to_grade(input);
  ASSERT_TRUE(result.ok());
  EXPECT_TRUE(result->none_seen);
  EXPECT_EQ(result->gold->g_t(), 0);
  EXPECT_FALSE(result->gold->hi);
  input.balance_step = mg(0.01);
  result = bead_to_grade(input);
  EXPECT_EQ(g_t(*result->gold->lo), 0);
  EXPECT_NEAR(g_t(*result->gold->hi), 0.95 * 0.005 / 30 * 1000, 1e-9);
  input.bead = {mg(0), mg(0), mg(0)};
  input.balance_step.reset();
  EXPECT_FALSE(bead_to_grade(input)->gold->hi) << "three empty pans are no proof of nothing";
}

TEST(Grade, NoneSeenIsSilverToo) {
  GradeInput input = bead_of(30, 0);
  input.balance_step = mg(0.01);
  EXPECT_EQ(bead_to_grade(input)->silver_status, SilverStatus::not_determined) << "no fineness, no silver by difference";
  input.fineness = fine(700);
  ASSERT_TRUE(bead_to_grade(input)->silver);
  EXPECT_EQ(bead_to_grade(input)->silver->g_t(), 0);
  EXPECT_NEAR(g_t(*bead_to_grade(input)->gold->hi), 0.95 * 0.005 / 30 * 1000, 1e-9) << "unseen metal may be all gold";
  input.blank = mg(0.1);
  EXPECT_EQ(bead_to_grade(input)->silver_status, SilverStatus::not_above_blank);
  EXPECT_EQ(bead_to_grade(input)->bead.g_t(), 0);
}

TEST(Grade, SilverBelowTheBlank) {
  GradeInput input = bead_of(30, 1);
  input.fineness = fine(900);
  input.blank = mg(0.2);
  input.balance_step = mg(0.01);
  const auto result = bead_to_grade(input);
  ASSERT_TRUE(result.ok());
  EXPECT_EQ(result->silver_status, SilverStatus::not_above_blank);
  EXPECT_FALSE(result->silver);
  ASSERT_TRUE(result->silver_hi);
  EXPECT_GT(g_t(*result->silver_hi), 0);
  EXPECT_GE(result->bead.g_t(), result->gold->g_t());
}

TEST(Grade, CollectorHidesTheOresSilver) {
  GradeInput input = bead_of(30, 5.15);
  input.gold = mg(0.15);
  input.collector = mg(5);
  EXPECT_EQ(bead_to_grade(input)->silver_status, SilverStatus::not_determined);
  input.bead = {mg(15.15)};
  const auto rich = bead_to_grade(input);
  EXPECT_EQ(rich->silver_status, SilverStatus::by_difference);
  EXPECT_NEAR(rich->silver->g_t(), 10.0 / 30 * 1000, 1e-9);
}

TEST(Grade, RefusalsAmongTheCorrections) {
  GradeInput input = bead_of(20, 10);
  input.silver_loss = Share(2, unit::percent);
  EXPECT_EQ(refusal_of(input), ErrorCode::missing_key);
  input.fineness = fine(500);
  EXPECT_TRUE(bead_to_grade(input).ok());
  input.cupel = mg(0.2);
  EXPECT_EQ(refusal_of(input), ErrorCode::conflict);
  input.silver_loss.reset();
  input.cupel_gold = mg(0.3);
  EXPECT_EQ(refusal_of(input), ErrorCode::inconsistent);
  input.cupel.reset();
  EXPECT_EQ(refusal_of(input), ErrorCode::missing_key);
  input.cupel_gold.reset();
  input.gold = mg(5);
  EXPECT_EQ(refusal_of(input), ErrorCode::conflict);
}

TEST(Grade, RefusalsOfImpossibleMasses) {
  EXPECT_EQ(refusal_of(bead_of(0, 1)), ErrorCode::out_of_range);
  EXPECT_EQ(refusal_of(bead_of(30, -1)), ErrorCode::out_of_range);
  EXPECT_EQ(refusal_of(bead_of(1, 1001)), ErrorCode::inconsistent);
  GradeInput input = bead_of(30, 1);
  input.moisture = Share(100, unit::percent);
  EXPECT_EQ(refusal_of(input), ErrorCode::out_of_range);
  input.moisture.reset();
  input.gold = mg(1.2);
  EXPECT_EQ(refusal_of(input), ErrorCode::inconsistent);
  input.gold.reset();
  input.bead.clear();
  EXPECT_EQ(refusal_of(input), ErrorCode::too_small);
  input.bead = {mg(0)};
  input.collector = mg(5);
  EXPECT_EQ(refusal_of(input), ErrorCode::inconsistent);
  input = bead_of(std::nan(""), 1);
  EXPECT_EQ(refusal_of(input), ErrorCode::out_of_range);
}

TEST(Grade, ColourTouchstoneAndDensityAreBlindBesideCollector) {
  for (const FinenessMethod method : {FinenessMethod::colour, FinenessMethod::touchstone, FinenessMethod::density}) {
    GradeInput input = bead_of(30, 5);
    input.fineness = fine(100, method);
    input.fineness->u = Fineness(20, unit::permil);
    EXPECT_TRUE(bead_to_grade(input).ok());
    input.collector = mg(4);
    EXPECT_EQ(refusal_of(input), ErrorCode::conflict) << method_name(method);
  }
}

GradeInput any_input() {
  GradeInput input = bead_of(*rc::gen::inRange(1, 2000) / 10.0, *rc::gen::inRange(0, 50000) / 1000.0);
  input.fineness = fine(*rc::gen::inRange(0, 1001),
                        *rc::gen::element(FinenessMethod::parted, FinenessMethod::touchstone, FinenessMethod::colour));
  input.balance_step = mg(*rc::gen::element(0.001, 0.01, 0.1, 1.0));
  input.portion_step = g(0.1);
  input.tared = *rc::gen::arbitrary<bool>();
  if (*rc::gen::arbitrary<bool>()) input.blank = mg(*rc::gen::inRange(0, 1000) / 1000.0);
  if (*rc::gen::arbitrary<bool>()) input.repeat_sd = mg(*rc::gen::inRange(0, 100) / 1000.0);
  if (*rc::gen::arbitrary<bool>()) input.gold_loss = Share(*rc::gen::inRange(0, 300) / 100.0, unit::percent);
  return input;
}

RC_GTEST_PROP(GradeLaw, OrderOfTheFigures, ()) {
  const auto result = bead_to_grade(any_input());
  RC_PRE(result.ok());
  const MeasuredGrade& gold = *result->gold;
  RC_ASSERT(gold.value <= result->bead.value * (1 + 1e-12));
  RC_ASSERT(Grade() <= *gold.lo && *gold.lo <= gold.value && gold.value <= *gold.hi);
  RC_ASSERT(*gold.hi <= std::max(result->bead.hi.value_or(result->bead.value), gold.value) * (1 + 1e-12));
  RC_ASSERT(result->silver.has_value() == (result->silver_status == SilverStatus::by_difference));
  double shares = 0;
  for (const BudgetLine& line : result->budget) shares += line.share_pct;
  RC_ASSERT(result->budget.empty() || std::abs(shares - 100) < 1e-9);
}

RC_GTEST_PROP(GradeLaw, HalfTheOreTwiceTheGrade, ()) {
  GradeInput input = any_input();
  const auto whole = bead_to_grade(input);
  input.portion = input.portion / 2;
  const auto half = bead_to_grade(input);
  RC_PRE(whole.ok() && half.ok());
  RC_ASSERT(std::abs(half->gold->g_t() - 2 * whole->gold->g_t()) <= 1e-9 * half->gold->g_t());
}

}  // namespace
}  // namespace prillbook
