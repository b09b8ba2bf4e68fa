// SPDX-License-Identifier: GPL-3.0-or-later
#include <gmock/gmock.h>
#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include <boost/math/distributions/poisson.hpp>
#include <cmath>
#include <limits>
#include <numbers>

#include "core/preparation/carry_over.h"
#include "core/preparation/grains.h"
#include "core/preparation/gy.h"
#include "tests/support/masses.h"

namespace prillbook {
namespace {

using testing::HasSubstr;

Opening um(double value) { return {value, unit::micrometre}; }
Grade g_t(double value) { return {value, unit::gram_per_tonne}; }

GyInput gy(double top, double liberation, double grade, double mass) {
  GyInput input;
  input.top_size = um(top);
  input.liberation = um(liberation);
  input.grade = g_t(grade);
  input.mass = g(mass);
  return input;
}

// Our own arithmetic from the formula, worked by hand: the exponent moves the error 4.5-fold.
TEST(Gy, ExponentIsPartOfTheAnswer) {
  GyInput input = gy(2000, 100, 5, 1000);
  EXPECT_NEAR(gy_error(input)->relative_sd_pct, 20.77, 0.01);
  EXPECT_THAT(gy_error(input)->form, HasSubstr("exponent 1.5"));
  input.exponent = 2.5;
  EXPECT_NEAR(gy_error(input)->relative_sd_pct, 92.9, 0.01);
  EXPECT_THAT(gy_error(input)->form, HasSubstr("exponent 2.5"));
}

TEST(Gy, BelowTheLiberationSizeTheGrainGoverns) {
  const auto at = gy_error(gy(106, 106, 5, 30)), below = gy_error(gy(50, 106, 5, 30)), above = gy_error(gy(107, 106, 5, 30));
  EXPECT_NEAR(at->relative_sd_pct, 13.84, 0.005);
  EXPECT_EQ(below->relative_sd_pct, at->relative_sd_pct) << "gold flattens, it is not milled";
  EXPECT_TRUE(at->gold_grain_governs);
  EXPECT_FALSE(above->gold_grain_governs);
  EXPECT_THAT(below->form, HasSubstr("gold grain governs"));
}

TEST(Gy, WholeLotHasNoSamplingError) {
  GyInput input = gy(2000, 100, 5, 1000);
  input.lot = g(1000);
  EXPECT_EQ(gy_error(input)->relative_sd_pct, 0);
  input.lot = g(999);
  EXPECT_EQ(gy_error(input).error().code, ErrorCode::inconsistent);
  EXPECT_EQ(gy_error(input).error().field, "lot_g");
}

TEST(Gy, RefusesFiguresOutsideTheirDomain) {
  EXPECT_EQ(gy_error(gy(0, 100, 5, 1)).error().field, "top_size_um");
  EXPECT_EQ(gy_error(gy(1, -1, 5, 1)).error().field, "liberation_um");
  EXPECT_EQ(gy_error(gy(1, 1, 0, 1)).error().field, "grade_g_t");
  EXPECT_EQ(gy_error(gy(1, 1, 1, std::numeric_limits<double>::quiet_NaN())).error().field, "mass_g");
  GyInput input = gy(1, 1, 1, 1);
  input.exponent = 3.1;
  EXPECT_EQ(gy_error(input).error().field, "exponent");
}

// The mass asked for gives the precision asked for, with and without an end to the lot.
RC_GTEST_PROP(Gy, MassForTargetMeetsTheTarget, (bool with_lot)) {
  GyInput input = gy(*rc::gen::inRange(50, 5000), *rc::gen::inRange(20, 1000), *rc::gen::inRange(1, 500) / 10.0, 1);
  input.exponent = *rc::gen::inRange(5, 30) / 10.0;
  if (with_lot) input.lot = g(*rc::gen::inRange(10, 100'000));
  input.target = Share(*rc::gen::inRange(1, 500) / 10.0, unit::percent);
  const auto first = gy_error(input);
  RC_ASSERT(first.ok() && first->mass_for_target.has_value());
  input.mass = *first->mass_for_target;
  if (input.lot && input.mass > *input.lot) input.mass = *input.lot;
  const auto second = gy_error(input);
  RC_ASSERT(second.ok());
  RC_ASSERT(std::abs(second->relative_sd_pct / input.target->in(unit::percent)-1) < 1e-6);
}

// Variances of two stages add to the variance of one: 1/M - 1/L is a sum of differences.
RC_GTEST_PROP(Gy, StagesAdd, ()) {
  const double lot = *rc::gen::inRange(1000, 100'000), middle = lot / *rc::gen::inRange(2, 20),
               last = middle / *rc::gen::inRange(2, 20);
  const auto variance = [](double mass, double from) {
    GyInput input = gy(1000, 100, 5, mass);
    input.lot = g(from);
    const double sd = gy_error(input)->relative_sd_pct;
    return sd * sd;
  };
  RC_ASSERT(std::abs((variance(middle, lot) + variance(last, middle)) / variance(last, lot) - 1) < 1e-9);
}

TEST(Ingamells, ConstantIsMassTimesSquareOfPercent) {
  const auto result = ingamells({g(90), g(110)}, {9, 11}, Share(1, unit::percent));
  ASSERT_TRUE(result.ok());
  EXPECT_DOUBLE_EQ(result->mean, 10);
  EXPECT_NEAR(result->sd, std::numbers::sqrt2, 1e-12);
  EXPECT_NEAR(result->constant_g, 100 * 200, 1e-8) << "14.14 % squared, times 100 g";
  EXPECT_NEAR(result->mass_for_target->in(unit::gram), result->constant_g, 1e-8) << "Ks is the mass for 1 %";
}

TEST(Ingamells, Refusals) {
  EXPECT_EQ(ingamells({g(1)}, {1}, {}).error().code, ErrorCode::too_small);
  EXPECT_EQ(ingamells({g(1), g(1)}, {1}, {}).error().code, ErrorCode::inconsistent);
  EXPECT_EQ(ingamells({g(1), g(1)}, {0, 0}, {}).error().code, ErrorCode::out_of_range);
}

// A sphere and a disc of the same diameter differ by 3/2 × flatness.
RC_GTEST_PROP(Grains, DiscAgainstSphere, ()) {
  const GrainShape sphere{um(*rc::gen::inRange(1, 3000)), {}};
  GrainShape disc = sphere;
  disc.flatness = *rc::gen::inRange(1, 101) / 100.0;
  RC_ASSERT(std::abs(grain_mass(disc) / grain_mass(sphere) / (1.5 * *disc.flatness) - 1) < 1e-12);
}

// Gy's formula for liberated spheres of one size is the Poisson law: f = π/6, g = 1, l = 1.
RC_GTEST_PROP(Grains, AgreeWithGyForLiberatedSpheres, ()) {
  GyInput input = gy(100, *rc::gen::inRange(100, 900), *rc::gen::inRange(1, 100), *rc::gen::inRange(1, 1000));
  input.shape = std::numbers::pi / 6;
  input.range_factor = 1;
  const auto count = grain_count(input.grade, input.mass, {input.liberation, {}});
  RC_ASSERT(std::abs(count->relative_sd_pct / gy_error(input)->relative_sd_pct - 1) < 1e-9);
}

// The range is central: at most 2.5 % lies below lo and above hi, and no narrower whole numbers would do.
RC_GTEST_PROP(Grains, RangeHoldsTheCentralShare, ()) {
  const double expected = std::pow(10, *rc::gen::inRange(-300, 500) / 100.0);
  const boost::math::poisson_distribution<> law(expected);
  const double lo = poisson_quantile(expected, 0.025), hi = poisson_quantile(expected, 0.975);
  RC_ASSERT(lo == std::floor(lo) && hi == std::floor(hi) && lo <= hi);
  RC_ASSERT(cdf(law, lo) >= 0.025);
  if (lo > 0) RC_ASSERT(cdf(law, lo - 1) < 0.025);
  RC_ASSERT(cdf(law, hi) >= 0.975);
  if (hi > 0) RC_ASSERT(cdf(law, hi - 1) < 0.975);
}

TEST(Grains, SmallAndLargeCounts) {
  EXPECT_EQ(poisson_quantile(0.01, 0.975), 0);
  EXPECT_EQ(poisson_quantile(0, 0.975), 0);
  // The law turns normal: the quantile is continuous where the formula changes over.
  const double below = 1e8 - 1, above = 1e8;
  EXPECT_NEAR(poisson_quantile(above, 0.025) - poisson_quantile(below, 0.025), 1, 1.01);
  EXPECT_EQ(grain_count(g_t(1e6), g(1e300), {um(1e-20), {}}).error().code, ErrorCode::not_finite);
  EXPECT_EQ(grain_count(g_t(0), g(1), {um(1), {}}).error().field, "grade_g_t");
  EXPECT_EQ(grain_count(g_t(1), g(1), {um(1), 1.5}).error().field, "flatness");
}

CarryOverInput carry(double sample, double previous, double own, double holdup, std::vector<Mass> flushes = {}) {
  return {g(sample), g_t(previous), g_t(own), g(holdup), std::move(flushes)};
}

// Our own arithmetic: 1 % of an equal mass at 100 g/t stays in the machine.
TEST(CarryOver, MixesAndFlushes) {
  const auto plain = mix_carryover(carry(1000, 100, 0, 10));
  EXPECT_NEAR(plain->apparent.in(unit::gram_per_tonne), 0.990099, 1e-6);
  EXPECT_NEAR(*plain->carryover_pct, 100, 1e-12);
  const auto flushed = mix_carryover(carry(1000, 100, 0, 10, {g(1000)}));
  EXPECT_NEAR(flushed->apparent.in(unit::gram_per_tonne), 0.990099 / 101, 1e-6);
}

TEST(CarryOver, PercentIsForeignMetalOfAllMetal) {
  const auto result = mix_carryover(carry(90, 9, 1, 10));
  EXPECT_DOUBLE_EQ(result->apparent.in(unit::gram_per_tonne), 1.8);
  EXPECT_DOUBLE_EQ(result->carryover.in(unit::gram_per_tonne), 0.8);
  EXPECT_DOUBLE_EQ(*result->carryover_pct, 50);
  const auto poorer = mix_carryover(carry(90, 0, 1, 10));
  EXPECT_LT(poorer->carryover.in(unit::gram_per_tonne), 0);
  EXPECT_EQ(*poorer->carryover_pct, 0);
  EXPECT_FALSE(mix_carryover(carry(90, 0, 0, 10))->carryover_pct.has_value()) << "no metal, no share of it";
}

TEST(CarryOver, Refusals) {
  EXPECT_EQ(mix_carryover(carry(0, 1, 1, 1)).error().field, "sample_g");
  EXPECT_EQ(mix_carryover(carry(1, 1, 1, 1, {g(1), g(-1)})).error().field, "flushes[1]");
}

// Metal is neither made nor lost, and each flush leaves less.
RC_GTEST_PROP(CarryOver, KeepsTheMetal, ()) {
  const double sample = *rc::gen::inRange(1, 5000), holdup = *rc::gen::inRange(0, 200);
  const double previous = *rc::gen::inRange(0, 5000), own = *rc::gen::inRange(0, 500);
  const auto result = mix_carryover(carry(sample, previous, own, holdup));
  const double metal = own * sample + previous * holdup, found = result->apparent.in(unit::gram_per_tonne) * (sample + holdup);
  RC_ASSERT(std::abs(found - metal) <= 1e-9 * (metal + 1));
  const auto flushed = mix_carryover(carry(sample, previous, own, holdup, {g(*rc::gen::inRange(1, 1000))}));
  RC_ASSERT(flushed->apparent <= result->apparent);
}

}  // namespace
}  // namespace prillbook
