// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/fire/practice.h"

#include <gmock/gmock.h>
#include <rapidcheck/gtest.h>

#include <cmath>
#include <limits>

#include "tests/support/masses.h"

namespace prillbook {
namespace {

using testing::Contains;
using testing::Not;

ChargeInput pyritic(double target) {
  ChargeInput input;
  input.ore = g(20);
  input.kind = OreKind::sulphide;
  input.button_target = g(target);
  input.sulphides = {{"pyrite", Share(50, unit::percent)}};
  return input;
}

TEST(Practice, ADesignWeighedInAsItStandsIsJudgedAsDesigned) {
  const ChargeInput input = pyritic(30);
  const auto design = design_charge(input);
  ASSERT_TRUE(design.ok());
  const auto judged = judge_charge(
      input, {design->litharge, design->soda_ash, design->borax_glass, design->silica, design->flour, design->nitre, {}});
  ASSERT_TRUE(judged.ok());
  EXPECT_DOUBLE_EQ(judged->button_expected.in(unit::gram), design->button_expected.in(unit::gram));
  EXPECT_DOUBLE_EQ(*judged->silicate_degree, *design->silicate_degree);
  EXPECT_EQ(judged->warnings, design->warnings);
}

// 110 g of lead are reduced by the ore; 30 g of nitre burn 120 g of it.
TEST(Practice, NitreThatBurnsMoreLeadThanTheOreReducesLeavesNoButton) {
  const auto judged = judge_charge(pyritic(30), {g(80), g(20), g(5), {}, {}, g(30), {}});
  ASSERT_TRUE(judged.ok());
  EXPECT_DOUBLE_EQ(judged->button_expected.in(unit::gram), 0);
  EXPECT_THAT(judged->warnings, Contains(ChargeWarning::nitre_burns_all_lead));
  EXPECT_THAT(judged->warnings, Contains(ChargeWarning::button_off_target));
}

TEST(Practice, SulphideLeftOverAsksForIron) {
  const auto scarce = judge_charge(pyritic(30), {g(40), g(40), g(5), {}, {}, {}, {}});
  ASSERT_TRUE(scarce.ok());
  EXPECT_THAT(scarce->warnings, Contains(ChargeWarning::iron_needed)) << "110 g would be reduced, litharge holds 37 g";
  const auto burnt = judge_charge(pyritic(30), {g(80), g(40), g(5), {}, {}, g(20), {}});
  EXPECT_THAT(burnt->warnings, Not(Contains(ChargeWarning::iron_needed)));
}

TEST(Practice, ACupelLighterThanItsButton) {
  ChargeInput input = pyritic(30);
  input.cupel = g(25);
  EXPECT_THAT(design_charge(input)->warnings, Contains(ChargeWarning::cupel_small));
  input.cupel = g(35);
  EXPECT_THAT(design_charge(input)->warnings, Not(Contains(ChargeWarning::cupel_small)));
  input.cupel = g(0);
  EXPECT_EQ(design_charge(input).error().code, ErrorCode::out_of_range);
}

TEST(Practice, BadMassesOfAMixtureAreRefused) {
  EXPECT_EQ(judge_charge(pyritic(30), {g(-1), {}, {}, {}, {}, {}, {}}).error().field, "litharge");
  EXPECT_FALSE(judge_charge(pyritic(30), {{}, {}, {}, {}, g(std::numeric_limits<double>::quiet_NaN()), {}, {}}).ok());
}

TEST(Practice, ARecipeIsScaledByTheOre) {
  const Mixture recipe{g(75), g(63), g(10), {}, g(4), {}, {}};
  const auto made = scaled_mixture(recipe, g(50), g(20));
  ASSERT_TRUE(made.ok());
  EXPECT_DOUBLE_EQ(made->litharge->in(unit::gram), 30);
  EXPECT_DOUBLE_EQ(made->flour->in(unit::gram), 1.6);
  EXPECT_FALSE(made->silica) << "what the recipe leaves out stays out";
  EXPECT_EQ(scaled_mixture(recipe, g(0), g(20)).error().field, "recipe.ore");
  EXPECT_EQ(scaled_mixture(recipe, g(50), g(0)).error().field, "portion.mass");
}

TEST(Practice, WhatWasWeighedOtherwiseThanWanted) {
  const auto apart = mixture_differences({g(75), g(63), {}, {}, g(4), {}, {}}, {g(76), g(50), g(5), {}, g(4), {}, {}});
  ASSERT_EQ(apart.size(), 1u) << "litharge is within a tenth; borax was not asked for";
  EXPECT_EQ(apart[0].reagent, "soda ash");
}

TEST(Practice, ReducingTest) {
  const auto test = reducing_power_of(g(3), g(16.5), g(50));
  ASSERT_TRUE(test.ok());
  EXPECT_DOUBLE_EQ(test->power, 5.5);
  EXPECT_FALSE(test->litharge_gone);
  EXPECT_TRUE(reducing_power_of(g(5), g(46), g(50))->litharge_gone) << "50 g of litharge hold 46.4 g";
  EXPECT_EQ(reducing_power_of(g(3), g(48), g(50)).error().code, ErrorCode::inconsistent);
  EXPECT_EQ(reducing_power_of(g(0), g(1), {}).error().field, "reducing_test.ore");
  EXPECT_EQ(reducing_power_of(g(1), g(1), g(0)).error().field, "reducing_test.litharge");
}

TEST(Practice, PartingRatio) {
  EXPECT_DOUBLE_EQ(*parting_ratio(mg(10), mg(8), mg(18)), 2.5);
  EXPECT_FALSE(parting_ratio(mg(10), mg(0), mg(0)));
  EXPECT_DOUBLE_EQ(*parting_ratio(mg(8), mg(10), mg(0)), 0) << "a gain at parting is no silver";
}

TEST(Practice, ProofsWithoutABeadDoNotCount) {
  const ProofLoss none = loss_of_proofs({{mg(100), {}, {}, {}}});
  EXPECT_EQ(none.proofs, 0);
  EXPECT_FALSE(none.gold || none.silver);
  const ProofLoss unparted = loss_of_proofs({{mg(100), mg(300), mg(390), {}}});
  EXPECT_FALSE(unparted.gold || unparted.silver) << "without parting nobody knows which was lost";
  EXPECT_NEAR(loss_of_proofs({{mg(100), {}, mg(101), {}}}).gold->in(unit::percent), -1, 1e-9) << "a gain stays a gain";
}

// Whatever goes in and comes out, the loss of proofs all of one size is that of one of them.
RC_GTEST_PROP(Practice, ProofsOfOneKindAgree, ()) {
  const double in = *rc::gen::inRange(1, 1000), out = *rc::gen::inRange(1, 1000);
  const auto count = *rc::gen::inRange(1, 6);
  const ProofLoss loss = loss_of_proofs(std::vector<ProofMasses>(std::size_t(count), {mg(in), {}, mg(out), {}}));
  RC_ASSERT(std::abs(loss.gold->in(unit::percent)-100 * (1 - out / in)) < 1e-6);
  RC_ASSERT(loss.proofs == count);
}

// Bulk adds up: two charges in one pot fill what both fill alone.
RC_GTEST_PROP(Practice, BulkAddsUp, ()) {
  const double litharge = *rc::gen::inRange(0, 200), soda = *rc::gen::inRange(0, 200), ore = *rc::gen::inRange(1, 100);
  const double one = loose_millilitres(g(ore), {g(litharge), g(soda), {}, {}, {}, {}, {}});
  RC_ASSERT(std::abs(loose_millilitres(g(2 * ore), {g(2 * litharge), g(2 * soda), {}, {}, {}, {}, {}}) - 2 * one) < 1e-9);
}

}  // namespace
}  // namespace prillbook
