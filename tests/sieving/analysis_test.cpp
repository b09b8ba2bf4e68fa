// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/sieving/analysis.h"

#include <gmock/gmock.h>
#include <rapidcheck/gtest.h>

#include <algorithm>
#include <cmath>

namespace prillbook {
namespace {

using testing::Contains;
using testing::ElementsAre;
using testing::IsEmpty;
using testing::Not;

SieveAnalysis of(double portion, std::vector<std::pair<double, double>> cuts, double pan) {
  SieveAnalysis analysis;
  analysis.portion = Mass(portion, unit::gram);
  for (const auto& [um, grams] : cuts) analysis.cuts.push_back({Opening(um, unit::micrometre), Mass(grams, unit::gram)});
  analysis.pan = Mass(pan, unit::gram);
  return analysis;
}

double um(const std::optional<Opening>& opening) { return opening ? opening->in(unit::micrometre) : -1; }

TEST(SieveAnalysis, PercentagesAreOfWhatWasFound) {
  const auto result = analyse(of(100, {{75, 24.9}, {150, 49.8}}, 24.9));
  ASSERT_TRUE(result.ok());
  EXPECT_DOUBLE_EQ(result->total.in(unit::gram), 99.6);
  EXPECT_NEAR(result->loss_pct, 0.4, 1e-12);
  ASSERT_EQ(result->rows.size(), 2u);
  EXPECT_DOUBLE_EQ(um(result->rows[0].opening), 150) << "coarse to fine whatever the order of entry";
  EXPECT_NEAR(result->rows[0].retained_pct, 50, 1e-12);
  EXPECT_NEAR(result->rows[1].passing_pct, 25, 1e-12);
  EXPECT_NEAR(result->pan_pct, 25, 1e-12);
  EXPECT_THAT(result->warnings, ElementsAre(SieveWarning::loss_above_limit));
}

struct Balance {
  double found;
  double max_loss_pct;
  double step_g;  // 0: not known
  std::vector<SieveWarning> warnings;
};

class SieveBalance : public testing::TestWithParam<Balance> {};

TEST_P(SieveBalance, WarnsBeyondTheLargerLimit) {
  SieveAnalysis analysis = of(100, {{100, GetParam().found / 2}}, GetParam().found / 2);
  analysis.max_loss = Share(GetParam().max_loss_pct, unit::percent);
  if (GetParam().step_g > 0) analysis.step = Mass(GetParam().step_g, unit::gram);
  const auto result = analyse(analysis);
  ASSERT_TRUE(result.ok());
  EXPECT_EQ(result->warnings, GetParam().warnings);
}

constexpr auto loss = SieveWarning::loss_above_limit;
constexpr auto gain = SieveWarning::gain_above_limit;
// Three weighings (sieve, pan, portion) with step 1 g: 2 u = 2·√(3/12) = 1 g.
INSTANTIATE_TEST_SUITE_P(Limits, SieveBalance,
                         testing::Values(Balance{99.7, 0.3, 0, {}}, Balance{99.69, 0.3, 0, {loss}}, Balance{100.3, 0.3, 0, {}},
                                         Balance{100.31, 0.3, 0, {gain}}, Balance{99.0, 0.3, 1, {}},
                                         Balance{98.99, 0.3, 1, {loss}}, Balance{98.99, 2, 1, {}}, Balance{101.5, 0.3, 1, {gain}},
                                         Balance{99.69, 0.3, 0.001, {loss}}, Balance{102, 0.3, 0, {gain}}));

TEST(SieveAnalysis, AGainAboveTwoPerCentIsRefusedWhateverTheLimit) {
  SieveAnalysis analysis = of(100, {{100, 52}}, 50.01);
  analysis.max_loss = Share(5, unit::percent);
  const auto result = analyse(analysis);
  ASSERT_FALSE(result.ok());
  EXPECT_EQ(result.error().code, ErrorCode::inconsistent);
}

TEST(SieveAnalysis, RefusesWhatCannotBeACurve) {
  EXPECT_EQ(analyse(of(10, {}, 10)).error().code, ErrorCode::too_small);
  EXPECT_EQ(analyse(of(10, {{75, 0}}, 0)).error().code, ErrorCode::inconsistent);
  EXPECT_EQ(analyse(of(10, {{75, -1}}, 11)).error().field, "cuts[0].retained_g");
  EXPECT_EQ(analyse(of(10, {{75, 1}, {0, 1}}, 8)).error().field, "cuts[1].opening_um");
  EXPECT_EQ(analyse(of(10, {{75, NAN}}, 8)).error().code, ErrorCode::out_of_range);
  const auto twice = analyse(of(10, {{75, 5}, {150, 1}, {75, 2}}, 2));
  EXPECT_EQ(twice.error().code, ErrorCode::conflict);
  EXPECT_EQ(twice.error().field, "cuts[2].opening_um");
}

TEST(PassingSize, IsInsideTheSievesOrAbsent) {
  const auto coarse = analyse(of(100, {{200, 30}, {100, 40}}, 30));
  EXPECT_EQ(coarse->p80.status, SizeStatus::above_top_sieve);
  EXPECT_FALSE(coarse->p80.size.has_value());
  const auto fine = analyse(of(100, {{200, 5}, {100, 5}}, 90));
  EXPECT_EQ(fine->p80.status, SizeStatus::below_bottom_sieve);
  EXPECT_FALSE(fine->p80.size.has_value());
  const auto on_top = analyse(of(100, {{200, 20}, {100, 40}}, 40));
  EXPECT_EQ(on_top->p80.status, SizeStatus::inside);
  EXPECT_DOUBLE_EQ(um(on_top->p80.size), 200);
  const auto on_bottom = analyse(of(100, {{200, 10}, {100, 10}}, 80));
  EXPECT_DOUBLE_EQ(um(on_bottom->p80.size), 100);
}

TEST(PassingSize, HalfwayInPercentIsTheGeometricMean) {
  const auto result = analyse(of(100, {{400, 10}, {100, 20}, {50, 20}}, 50));
  EXPECT_NEAR(um(result->p80.size), 200, 1e-9);
  EXPECT_THAT(result->warnings, ElementsAre(SieveWarning::wide_bracket));
}

TEST(PassingSize, ALevelStretchCountsAtItsFinestSieve) {
  const auto result = analyse(of(100, {{400, 20}, {200, 0}, {100, 0}, {50, 40}}, 40));
  EXPECT_DOUBLE_EQ(um(result->p80.size), 100);
}

TEST(SieveAnalysis, BracketOfExactlyTwoIsNotWide) {
  EXPECT_THAT(analyse(of(100, {{150, 10}, {75, 20}}, 70))->warnings, IsEmpty());
  EXPECT_THAT(analyse(of(100, {{151, 10}, {75, 20}}, 70))->warnings, ElementsAre(SieveWarning::wide_bracket));
}

TEST(SieveAnalysis, NamesAnOpeningOutsideTheSeries) {
  SieveAnalysis analysis = of(100, {{150, 10}, {90, 20}, {75, 20}}, 50);
  analysis.series = SieveSeries::astm_e11;
  EXPECT_THAT(analyse(analysis)->warnings, IsEmpty());
  analysis.cuts[1].opening = Opening(91, unit::micrometre);
  EXPECT_THAT(analyse(analysis)->warnings, ElementsAre(SieveWarning::opening_not_in_series));
}

// Any stack: the curve falls, the parts make the whole, and order of entry does not matter.
RC_GTEST_PROP(SieveCurve, IsOneCurveWhateverTheOrder, ()) {
  const auto openings = *rc::gen::nonEmpty(rc::gen::unique<std::vector<int>>(rc::gen::inRange(20, 6000)));
  std::vector<std::pair<double, double>> cuts;
  double found = 0;
  for (const int opening : openings) {
    const double grams = *rc::gen::inRange(0, 5000) / 100.0;
    cuts.emplace_back(opening, grams);
    found += grams;
  }
  const double pan = *rc::gen::inRange(1, 5000) / 100.0;
  found += pan;
  const auto result = analyse(of(found, cuts, pan));
  RC_ASSERT(result.ok());
  double retained = result->pan_pct, before = 100;
  for (const SieveRow& row : result->rows) {
    retained += row.retained_pct;
    RC_ASSERT(row.passing_pct <= before);
    RC_ASSERT(std::abs(row.passing_pct + row.cumulative_retained_pct - 100) < 1e-9);
    before = row.passing_pct;
  }
  RC_ASSERT(std::abs(retained - 100) < 1e-9);
  RC_ASSERT(result->rows.back().passing_pct == result->pan_pct);
  if (result->p80.size) {
    RC_ASSERT(*result->p80.size <= result->rows.front().opening * (1 + 1e-12));
    RC_ASSERT(*result->p80.size >= result->rows.back().opening * (1 - 1e-12));
    if (result->p50.size) RC_ASSERT(*result->p50.size <= *result->p80.size);
  }
  std::reverse(cuts.begin(), cuts.end());
  const auto reversed = analyse(of(found, cuts, pan));
  RC_ASSERT(reversed->p80.status == result->p80.status);
  RC_ASSERT(reversed->p80.size == result->p80.size);
}

// Masses all multiplied by one number leave the percentages alone.
RC_GTEST_PROP(SieveCurve, DoesNotDependOnTheMassSieved, ()) {
  const double factor = *rc::gen::inRange(1, 1000) / 10.0;
  const std::vector<double> grams{3, 7, 11, 5};
  std::vector<std::pair<double, double>> cuts, scaled;
  for (std::size_t i = 0; i < 3; ++i) {
    cuts.emplace_back(300.0 / (1 << i), grams[i]);
    scaled.emplace_back(300.0 / (1 << i), grams[i] * factor);
  }
  const auto one = analyse(of(26, cuts, grams[3])), other = analyse(of(26 * factor, scaled, grams[3] * factor));
  RC_ASSERT(std::abs(um(one->p80.size) - um(other->p80.size)) < 1e-9);
}

TEST(SieveSoFar, WhatIsNotFoundYetCountsAsFiner) {
  const auto rows = rows_so_far(Mass(100, unit::gram), {{Opening(250, unit::micrometre), Mass(47, unit::gram)},
                                                        {Opening(850, unit::micrometre), Mass(1, unit::gram)}});
  ASSERT_EQ(rows.size(), 2u);
  EXPECT_NEAR(rows[0].passing_pct, 99, 1e-12);
  EXPECT_NEAR(rows[1].passing_pct, 52, 1e-12);
  const auto over = rows_so_far(Mass(10, unit::gram), {{Opening(250, unit::micrometre), Mass(47, unit::gram)}});
  EXPECT_EQ(over[0].passing_pct, 0) << "never below nothing";
}

}  // namespace
}  // namespace prillbook
