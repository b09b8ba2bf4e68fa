// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/fire/charge.h"

#include <gmock/gmock.h>
#include <rapidcheck/gtest.h>

#include <cmath>

#include "core/fire/silicate.h"
#include "tests/support/masses.h"

namespace prillbook {
namespace {

using testing::Contains;
using testing::IsEmpty;
using testing::Not;

constexpr OreKind kinds[] = {OreKind::siliceous, OreKind::oxide, OreKind::sulphide, OreKind::carbonate, OreKind::mixed};

double grams(Mass mass) { return mass.in(unit::gram); }

ChargeInput charge_for(double ore, std::optional<OreKind> kind, double target) {
  ChargeInput input;
  input.ore = g(ore);
  input.kind = kind;
  input.button_target = g(target);
  return input;
}

TEST(Charge, NamesOfTheContract) {
  EXPECT_EQ(find_ore_kind("siliceous"), OreKind::siliceous);
  EXPECT_EQ(find_ore_kind("mixed"), OreKind::mixed);
  EXPECT_FALSE(find_ore_kind("Sulphide").has_value());
}

TEST(Charge, FlourOrNitreByWhatTheOreReduces) {
  ChargeInput input = charge_for(20, {}, 30);
  input.reducing_power = 1;
  const auto poor = design_charge(input);
  EXPECT_NEAR(grams(*poor->flour), 10 / 11.2, 1e-12);
  EXPECT_FALSE(poor->nitre.has_value());
  input.reducing_power = 5;
  const auto rich = design_charge(input);
  EXPECT_NEAR(grams(*rich->nitre), 70 / 4.0, 1e-12);
  EXPECT_FALSE(rich->flour.has_value());
  input.reducing_power = 1.5;
  const auto exact = design_charge(input);
  ASSERT_TRUE(exact->flour.has_value());
  EXPECT_EQ(grams(*exact->flour), 0);
  EXPECT_FALSE(exact->nitre.has_value());
}

TEST(Charge, AnOxidisingOreTakesMoreFlour) {
  ChargeInput input = charge_for(20, OreKind::siliceous, 30);
  const double plain = grams(*design_charge(input)->flour);
  EXPECT_NEAR(grams(*design_charge(charge_for(20, OreKind::oxide, 30))->flour), plain + 20 * 1.1 / 11.2, 1e-9);
  input.reducing_power = -1.1;
  EXPECT_NEAR(grams(*design_charge(input)->flour), plain + 20 * 1.1 / 11.2, 1e-9) << "the measured figure leads";
}

TEST(Charge, WhatMustBeKnown) {
  const auto nothing = design_charge(charge_for(20, {}, 30));
  EXPECT_EQ(nothing.error().code, ErrorCode::missing_key);
  EXPECT_EQ(nothing.error().field, "ore_kind");
  ChargeInput sulphide = charge_for(20, OreKind::sulphide, 30);
  EXPECT_EQ(design_charge(sulphide).error().code, ErrorCode::missing_key) << "never a guess from the word sulphide";
  sulphide.sulphides = {{"pyrite", Share(0, unit::percent)}};
  EXPECT_FALSE(design_charge(sulphide).ok());
  sulphide.sulphides = {{"pyrite", Share(50, unit::percent)}};
  EXPECT_TRUE(design_charge(sulphide).ok());
  sulphide.sulphides.clear();
  sulphide.reducing_power = 4;
  EXPECT_TRUE(design_charge(sulphide).ok());
}

TEST(Charge, RefusesMineralsThatDoNotAddUp) {
  ChargeInput input = charge_for(20, OreKind::mixed, 30);
  input.sulphides = {{"fool's gold", Share(5, unit::percent)}};
  EXPECT_EQ(design_charge(input).error().field, "sulphides[0].mineral");
  input.sulphides = {{"sphalerite", Share(5, unit::percent)}, {"blende", Share(5, unit::percent)}};
  EXPECT_EQ(design_charge(input).error().code, ErrorCode::conflict) << "two names of one mineral";
  input.sulphides = {{"pyrite", Share(60, unit::percent)}, {"galena", Share(30, unit::percent)}};
  input.silica = Share(11, unit::percent);
  EXPECT_EQ(design_charge(input).error().code, ErrorCode::inconsistent);
  input.silica = Share(10, unit::percent);
  EXPECT_TRUE(design_charge(input).ok());
}

TEST(Charge, RefusesFiguresOutsideTheirDomain) {
  EXPECT_EQ(design_charge(charge_for(0, OreKind::oxide, 30)).error().field, "ore_g");
  EXPECT_EQ(design_charge(charge_for(1, OreKind::oxide, -1)).error().field, "button_target_g");
  ChargeInput input = charge_for(20, OreKind::oxide, 30);
  input.flour_power = 0;
  EXPECT_EQ(design_charge(input).error().field, "flour_power");
  input = charge_for(20, OreKind::oxide, 30);
  input.reducing_power = 40;
  EXPECT_EQ(design_charge(input).error().field, "reducing_power_g_per_g");
}

TEST(Charge, ScarceLithargeLimitsTheButton) {
  ChargeInput input = charge_for(30, OreKind::siliceous, 30);
  input.litharge = g(20);
  const auto charge = design_charge(input);
  EXPECT_NEAR(grams(charge->button_expected), 20 * lead_per_litharge, 1e-9);
  EXPECT_THAT(charge->warnings, Contains(ChargeWarning::litharge_scarce));
  EXPECT_THAT(charge->warnings, Contains(ChargeWarning::button_off_target));
  input.litharge = g(30 / lead_per_litharge + 10.1);
  EXPECT_THAT(design_charge(input)->warnings, IsEmpty());
  input.litharge = g(30 / lead_per_litharge + 9.9);
  EXPECT_THAT(design_charge(input)->warnings, Contains(ChargeWarning::litharge_scarce));
}

TEST(Charge, WarnsOfNitre) {
  ChargeInput input = charge_for(20, {}, 30);
  input.reducing_power = 5.5;
  EXPECT_THAT(design_charge(input)->warnings, Not(Contains(ChargeWarning::nitre_may_boil_over)));
  input.reducing_power = 10;
  const auto charge = design_charge(input);
  EXPECT_THAT(charge->warnings, Contains(ChargeWarning::nitre_may_boil_over)) << "42.5 g nitre on 20 g ore";
  EXPECT_THAT(charge->warnings, Contains(ChargeWarning::nitre_burns_all_lead)) << "5.12 × 42.5 g burns more than 200 g";
  EXPECT_EQ(grams(charge->button_theory), 0);
}

TEST(Charge, WarnsOfButtonAndSlag) {
  EXPECT_THAT(design_charge(charge_for(30, OreKind::siliceous, 17))->warnings, Contains(ChargeWarning::button_small));
  EXPECT_THAT(design_charge(charge_for(30, OreKind::siliceous, 51))->warnings, Contains(ChargeWarning::button_large));
  ChargeInput bare = charge_for(30, OreKind::siliceous, 30);
  bare.soda_ash = g(0);
  EXPECT_THAT(design_charge(bare)->warnings, Contains(ChargeWarning::silicate_degree_high));
  bare.litharge = g(0);
  const auto no_base = design_charge(bare);
  EXPECT_FALSE(no_base->silicate_degree.has_value()) << "nothing basic in the pot";
  EXPECT_EQ(grams(no_base->button_expected), 0);
}

TEST(Charge, OwnLeadOfGalenaGoesIntoTheButton) {
  ChargeInput input = charge_for(20, OreKind::sulphide, 15);
  input.sulphides = {{"galena", Share(100, unit::percent)}};
  input.litharge = g(10);
  const auto charge = design_charge(input);
  EXPECT_NEAR(grams(charge->button_expected), 15, 1e-9);
  EXPECT_THAT(charge->warnings, Not(Contains(ChargeWarning::litharge_scarce))) << "17.3 g lead come from the galena";
}

// Whatever is asked: exactly one of flour and nitre, nothing below 0, and the target met where litharge allows.
RC_GTEST_PROP(Charge, IsWholeAndMeetsItsTarget, ()) {
  ChargeInput input =
      charge_for(*rc::gen::inRange(5, 200), *rc::gen::elementOf(std::vector<OreKind>(std::begin(kinds), std::end(kinds))),
                 *rc::gen::inRange(10, 60));
  input.sulphides = {{*rc::gen::elementOf(std::vector<std::string>{"pyrite", "galena", "stibnite", "blende"}),
                      Share(*rc::gen::inRange(1, 101), unit::percent)}};
  const auto charge = design_charge(input);
  RC_ASSERT(charge.ok());
  RC_ASSERT(charge->flour.has_value() != charge->nitre.has_value());
  for (const Mass mass : {charge->litharge, charge->soda_ash, charge->borax_glass, charge->silica, charge->button_theory,
                          charge->flour.value_or(Mass{}), charge->nitre.value_or(Mass{})})
    RC_ASSERT(mass >= Mass{});
  RC_ASSERT(std::abs(grams(charge->button_expected) / grams(input.button_target) - 1) < 1e-9);
  RC_ASSERT(*charge->silicate_degree >= 1 - 1e-9);
}

// Twice the ore and twice the button is twice everything.
RC_GTEST_PROP(Charge, Scales, ()) {
  const auto kind =
      *rc::gen::elementOf(std::vector<OreKind>{OreKind::siliceous, OreKind::oxide, OreKind::carbonate, OreKind::mixed});
  const double ore = *rc::gen::inRange(5, 100), target = *rc::gen::inRange(10, 50);
  const auto one = design_charge(charge_for(ore, kind, target)), two = design_charge(charge_for(2 * ore, kind, 2 * target));
  RC_ASSERT(std::abs(two->litharge / one->litharge - 2) < 1e-9);
  RC_ASSERT(std::abs(two->soda_ash / one->soda_ash - 2) < 1e-9);
  RC_ASSERT(std::abs(*two->flour / *one->flour - 2) < 1e-9);
  RC_ASSERT(std::abs(*two->silicate_degree - *one->silicate_degree) < 1e-9);
}

TEST(Reducing, EveryCoefficientHasItsSource) {
  for (const Reagent& reagent : reagents()) {
    EXPECT_FALSE(reagent.practice.source.empty()) << reagent.name;
    EXPECT_FALSE(reagent.theory.source.empty()) << reagent.name;
    EXPECT_LT(std::abs(reagent.practice.value), std::abs(reagent.theory.value))
        << reagent.name << ": practice falls short of theory";
  }
  for (const Sulphide& sulphide : sulphides()) {
    EXPECT_FALSE(sulphide.practice.source.empty()) << sulphide.name;
    EXPECT_LT(sulphide.practice.value, sulphide.theory() * 1.05) << sulphide.name;
    EXPECT_EQ(find_sulphide(sulphide.name), &sulphide);
    if (!sulphide.trade_name.empty()) {
      EXPECT_EQ(find_sulphide(sulphide.trade_name), &sulphide);
    }
  }
  EXPECT_EQ(find_sulphide(""), nullptr);
  EXPECT_EQ(find_reagent("sugar of lead"), nullptr);
}

TEST(Silicate, DegreeIsOxygenOverOxygen) {
  SlagOxygen slag;
  EXPECT_FALSE(slag.degree().has_value());
  slag.add_silica(g(1));
  slag.add(Base::litharge, g(base_per_silica(Base::litharge, 2)));
  EXPECT_NEAR(*slag.degree(), 2, 1e-12);
  slag.add(Base::lime, g(base_per_silica(Base::lime, 2)));
  EXPECT_NEAR(*slag.degree(), 1, 1e-12);
}

// Worked by hand from the atomic masses; the printed bisilicates of soda and litharge are checked in tests/published. Grams of
// base for 1 g of silica: mono-, bi-, trisilicate.
TEST(Silicate, TableOfDegrees) {
  struct Row {
    Base base;
    double mono, bi, tri;
  };
  for (const Row& row : {Row{Base::soda_ash, 3.528, 1.764, 1.176}, Row{Base::bicarbonate, 5.593, 2.796, 1.864},
                         Row{Base::litharge, 7.430, 3.715, 2.477}, Row{Base::ferrous_oxide, 2.391, 1.196, 0.797},
                         Row{Base::lime, 1.867, 0.933, 0.622}, Row{Base::limestone, 3.332, 1.666, 1.111}}) {
    EXPECT_NEAR(base_per_silica(row.base, 1), row.mono, 0.001);
    EXPECT_NEAR(base_per_silica(row.base, 2), row.bi, 0.001);
    EXPECT_NEAR(base_per_silica(row.base, 3), row.tri, 0.001);
  }
}

}  // namespace
}  // namespace prillbook
