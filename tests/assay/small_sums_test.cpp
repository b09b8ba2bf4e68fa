// SPDX-License-Identifier: GPL-3.0-or-later
#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include <cmath>

#include "core/assay/density_fineness.h"
#include "core/assay/inquart.h"
#include "core/assay/mean_of_charges.h"
#include "core/assay/metallics.h"
#include "core/assay/moisture.h"
#include "core/assay/repeats.h"
#include "core/assay/rounding.h"
#include "tests/support/masses.h"

namespace prillbook {
namespace {

TEST(Metallics, WeighsBothFractions) {
  const auto result = metallics({g(18.4), mg(6.213), g(981.6), {{g(30), mg(0.1236)}, {g(30), mg(0.1308)}}});
  ASSERT_TRUE(result.ok());
  EXPECT_NEAR(result->fine_grade.in(unit::gram_per_tonne), 4.24, 1e-9);
  EXPECT_NEAR(result->grade.in(unit::gram_per_tonne), 10.375, 1e-3);
  EXPECT_NEAR(*result->coarse_share, 0.5988, 1e-4);
  EXPECT_NEAR(result->u->in(unit::gram_per_tonne), 0.12 * 0.9816, 1e-9);  // sd of two is |d|/sqrt 2, of their mean |d|/2
}

TEST(Metallics, Refusals) {
  EXPECT_EQ(metallics({g(1), mg(1), g(100), {}}).error().code, ErrorCode::too_small);
  EXPECT_EQ(metallics({g(1), g(2), g(100), {{g(30), mg(1)}}}).error().field, "coarse_metal_mg");
  EXPECT_EQ(metallics({g(1), mg(1), g(100), {{g(30), mg(1)}, {g(30), g(31)}}}).error().field, "fine[1].metal_mg");
  EXPECT_EQ(metallics({g(1), mg(1), g(50), {{g(30), mg(1)}, {g(30), mg(1)}}}).error().code, ErrorCode::inconsistent);
  EXPECT_EQ(metallics({g(1), mg(1), g(0), {{g(30), mg(1)}}}).error().code, ErrorCode::out_of_range);
}

TEST(Metallics, NoMetalNoShare) {
  const auto result = metallics({g(0), mg(0), g(100), {{g(30), mg(0)}}});
  ASSERT_TRUE(result.ok());
  EXPECT_FALSE(result->coarse_share);
  EXPECT_FALSE(result->u);
}

RC_GTEST_PROP(MetallicsLaw, BetweenFineAndCoarse, ()) {
  const double coarse = *rc::gen::inRange(1, 500), fine = *rc::gen::inRange(50, 2000);
  const Mass coarse_metal = mg(*rc::gen::inRange(0, 1000)), fine_metal = mg(*rc::gen::inRange(0, 1000) / 10.0);
  const auto result = metallics({g(coarse), coarse_metal, g(fine), {{g(30), fine_metal}}});
  RC_ASSERT(result.ok());
  const Grade of_coarse = grade(coarse_metal, g(coarse));
  RC_ASSERT(result->grade <= std::max(of_coarse, result->fine_grade) * (1 + 1e-9));
  RC_ASSERT(result->grade >= std::min(of_coarse, result->fine_grade) * (1 - 1e-9));
}

TEST(Moisture, TwoBases) {
  const auto result = moisture(g(100), g(90));
  ASSERT_TRUE(result.ok());
  EXPECT_NEAR(result->wet_basis.in(unit::percent), 10, 1e-12);
  EXPECT_NEAR(result->dry_basis.in(unit::percent), 100.0 / 9, 1e-12);
  EXPECT_EQ(moisture(g(90), g(100)).error().code, ErrorCode::inconsistent);
  EXPECT_EQ(moisture(g(90), g(0)).error().code, ErrorCode::out_of_range);
  EXPECT_EQ(moisture(g(1e300), g(1e-300)).error().code, ErrorCode::not_finite);
}

RC_GTEST_PROP(MoistureLaw, OneBasisGivesTheOther, ()) {
  const double wet = *rc::gen::inRange(100, 100000), dry = *rc::gen::inRange(1, 100);
  const auto result = moisture(g(wet), g(dry));
  RC_ASSERT(result.ok());
  const double w = result->wet_basis.in(unit::percent) / 100, d = result->dry_basis.in(unit::percent) / 100;
  RC_ASSERT(std::abs((1 - w) * (1 + d) - 1) < 1e-9);
}

TEST(Inquart, NeverTakesSilverAway) {
  EXPECT_EQ(silver_to_add(mg(1), mg(9), 2.5)->in(unit::milligram), 0);
  EXPECT_EQ(silver_to_add(mg(1), mg(1), 0).error().code, ErrorCode::out_of_range);
  EXPECT_EQ(silver_to_add(g(1e300), mg(1), 1e300).error().code, ErrorCode::not_finite);
}

TEST(DensityFineness, RefusesWhatItCannotTell) {
  DensityInput input{g(1), g(0.9335), {}, {}, {}, g(0.01)};
  input.liquid = Density(0.9982, unit::gram_per_cubic_centimetre);
  input.gold = Density(19.3, unit::gram_per_cubic_centimetre);
  input.silver = Density(10.5, unit::gram_per_cubic_centimetre);
  EXPECT_EQ(fineness_by_density(input).error().code, ErrorCode::too_small);
  input.balance_step = g(0.001);
  EXPECT_TRUE(fineness_by_density(input).ok());
  input.immersed = g(0.96);
  EXPECT_EQ(fineness_by_density(input).error().code, ErrorCode::out_of_range);  // denser than gold
  input.immersed = g(1.1);
  EXPECT_EQ(fineness_by_density(input).error().code, ErrorCode::inconsistent);
}

// Mix two metals without change of volume, weigh the mixture, and the share comes back.
RC_GTEST_PROP(DensityFinenessLaw, FindsTheMixture, ()) {
  const double share = *rc::gen::inRange(0, 1001) / 1000.0, mass = *rc::gen::inRange(1, 1000) / 100.0;
  const DensityInput defaults{};
  const double volume = mass * share / 19.3 + mass * (1 - share) / 10.5;
  DensityInput input = defaults;
  input.air = g(mass);
  input.immersed = g(mass - volume * 0.9982);
  const auto result = fineness_by_density(input);
  RC_ASSERT(result.ok());
  RC_ASSERT(std::abs(result->fineness.in(unit::permil)-1000 * share) < 1e-6);
}

// The stated uncertainty is the slope of the function itself.
TEST(DensityFineness, UncertaintyIsFirstOrder) {
  DensityInput input;
  input.air = g(1);
  input.immersed = g(0.933);
  input.balance_step = g(0.0001);
  const auto at = [&](double air, double immersed) {
    DensityInput moved = input;
    moved.air = g(air);
    moved.immersed = g(immersed);
    return fineness_by_density(moved)->fineness.in(unit::permil);
  };
  const double h = 1e-7, u = 0.0001 / std::sqrt(12.0);
  const double by_air = (at(1 + h, 0.933) - at(1 - h, 0.933)) / (2 * h),
               by_immersed = (at(1, 0.933 + h) - at(1, 0.933 - h)) / (2 * h);
  EXPECT_NEAR(fineness_by_density(input)->u->in(unit::permil), std::hypot(by_air * u, by_immersed * u), 1e-4);
}

TEST(Repeats, PooledOverGroups) {
  const std::vector<std::vector<Mass>> groups{{mg(1), mg(3)}, {mg(10), mg(10), mg(13)}, {mg(7)}};
  const auto pooled = pooled_repeatability(groups);
  ASSERT_TRUE(pooled);
  EXPECT_EQ(pooled->dof, 3);
  EXPECT_NEAR(pooled->sd.in(unit::milligram), std::sqrt((2.0 + 6.0) / 3), 1e-12);
  EXPECT_FALSE(pooled_repeatability({}));
  EXPECT_FALSE(repeat_statistics(std::vector{mg(7)}).sd);
}

ChargeGrade charge(double g_t, std::vector<Contribution> parts = {}) {
  return {"", ChargeState::valid, "", measured(Grade(g_t, unit::gram_per_tonne), std::move(parts))};
}

TEST(MeanOfCharges, ScatterSetsTheUncertainty) {
  std::vector<ChargeGrade> charges{charge(40), charge(44), charge(48), charge(900)};
  EXPECT_EQ(mean_of_charges(charges)->valid, 4);
  charges[3].state = ChargeState::excluded;
  EXPECT_EQ(mean_of_charges(charges).error().field, "charges[3].reason");
  charges[3].reason = "a colour was seen falling in from the tongs";
  const auto result = mean_of_charges(charges);
  ASSERT_TRUE(result.ok());
  EXPECT_EQ(result->valid, 3);
  EXPECT_NEAR(result->mean->g_t(), 44, 1e-12);
  EXPECT_NEAR(result->sd->in(unit::gram_per_tonne), 4, 1e-12);
  EXPECT_NEAR(result->mean->spread->k, 4.303, 1e-3);
}

TEST(MeanOfCharges, AgreementDoesNotBeatTheBalance) {
  const std::vector<Contribution> weighing{normal_part(UncertaintySource::bead_step, 2)};
  const std::vector<ChargeGrade> charges{charge(44.0, weighing), charge(44.1, weighing)};
  EXPECT_NEAR(mean_of_charges(charges)->mean->spread->u, std::sqrt(2.0), 1e-9);
  const std::vector<ChargeGrade> unknown{charge(44), charge(44)};
  EXPECT_FALSE(mean_of_charges(unknown)->mean->spread);
  EXPECT_FALSE(mean_of_charges({})->mean);
}

TEST(Rounding, ByTheUncertainty) {
  EXPECT_EQ(written(16.5, 0.9), "16.5 ± 0.9");
  EXPECT_EQ(written(16.4837, 0.8671), "16.5 ± 0.9");
  EXPECT_EQ(written(16.4837, 0.1449), "16.48 ± 0.14");
  EXPECT_EQ(written(16.4837, 0.2951), "16.48 ± 0.30");
  EXPECT_EQ(written(16.4837, 0.0996), "16.48 ± 0.10");
  EXPECT_EQ(written(15180, 340), "15200 ± 300");
  EXPECT_EQ(written(15180, 140), "15180 ± 140");
  EXPECT_EQ(written(0.5, 0.25, {}, DecimalMark::comma), "0,50 ± 0,25");
}

TEST(Rounding, ByTheBalance) {
  EXPECT_EQ(written(3.2139999999999995, {}), "3.214") << "nothing is known of it: no double is written out";
  EXPECT_EQ(written(16.5, {}, {}, DecimalMark::comma), "16,5");
  EXPECT_EQ(written(0, {}), "0");
  EXPECT_EQ(written(1234567, {}), "1234567");
  EXPECT_EQ(written(35.004, {}, 1), "35");
  EXPECT_EQ(written(35.004, {}, 0.3), "35");
  EXPECT_EQ(written(35.044, {}, 0.1), "35.0");
  EXPECT_EQ(written(35.004, 0.04, 1), "35 ± 1") << "never plus or minus nothing";
  EXPECT_EQ(written(35.25, {}), "35.25");
}

RC_GTEST_PROP(RoundingLaw, TheWrittenFigureIsNearerThanItsUncertainty, ()) {
  const double value = *rc::gen::inRange(1, 10'000'000) / 1000.0, u = *rc::gen::inRange(1, 1'000'000) / 1000.0;
  const int decimals = decimals_for_uncertainty(u);
  const double unit_of_last = std::pow(10.0, -decimals);
  RC_ASSERT(unit_of_last <= u * (1 + 1e-9));
  RC_ASSERT(u < 30 * unit_of_last);
  const auto back = parse_number(rounded(value, decimals), DecimalMark::point);
  RC_ASSERT(back.ok());
  RC_ASSERT(std::abs(back->value - value) <= unit_of_last / 2 * (1 + 1e-6));
}

}  // namespace
}  // namespace prillbook
