// SPDX-License-Identifier: GPL-3.0-or-later
#include <gmock/gmock.h>
#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include <algorithm>
#include <cmath>
#include <limits>
#include <numeric>

#include "core/quality/bias.h"
#include "core/quality/control.h"
#include "core/quality/pairs.h"
#include "core/quality/robust.h"

namespace prillbook {
namespace {

using testing::ElementsAre;
using testing::IsEmpty;

std::vector<ControlSignal> signals(const std::vector<double>& scores) { return *control_signals(scores, 0, 1); }

constexpr auto w12 = ControlRule::warning_1_2s;
constexpr auto r13 = ControlRule::reject_1_3s;
constexpr auto r22 = ControlRule::reject_2_2s;
constexpr auto r4s = ControlRule::reject_r_4s;
constexpr auto r41 = ControlRule::reject_4_1s;
constexpr auto r10 = ControlRule::reject_10x;

using S = ControlSignal;

TEST(Control, MostSeriousSingleRuleOnly) {
  EXPECT_THAT(signals({0, 2.5, 0, 3.5, 0.9}), ElementsAre(S{1, w12}, S{3, r13}));
  EXPECT_THAT(signals({2, 0, -2, 0, 3, 0}), ElementsAre(S{4, w12})) << "a limit is inside, 3 is beyond 2";
}

TEST(Control, TypedLimitsAreInsideDespiteRounding) {
  EXPECT_THAT(*control_signals({10.2, 10, 9.8}, 10, 0.1), IsEmpty());
  EXPECT_THAT(*control_signals({10.3}, 10, 0.1), ElementsAre(S{0, w12})) << "10.3 - 10 is a little above 0.3 in binary";
}

TEST(Control, TheValueThatCompletesARunCarriesIt) {
  EXPECT_THAT(signals({0, 2.1, 2.2, 0}), ElementsAre(S{1, w12}, S{2, w12}, S{2, r22}));
  EXPECT_THAT(signals({1.1, 1.2, 1.1, 1.3}), ElementsAre(S{3, r41}));
  EXPECT_THAT(signals(std::vector<double>(10, 0.1)), ElementsAre(S{9, r10}));
  EXPECT_THAT(signals({2.1, -2.1}), ElementsAre(S{0, w12}, S{1, w12}, S{1, r4s})) << "not the same side: no 2-2s";
  EXPECT_THAT(signals({1.9, -2.2}), ElementsAre(S{1, w12}, S{1, r4s})) << "the spread counts, not both limits";
}

TEST(Control, ARunThatGoesOnSignalsAgain) {
  EXPECT_THAT(signals({2.1, 2.1, 2.1}), ElementsAre(S{0, w12}, S{1, w12}, S{1, r22}, S{2, w12}, S{2, r22}));
  EXPECT_THAT(signals(std::vector<double>(11, -0.1)), ElementsAre(S{9, r10}, S{10, r10}));
}

TEST(Control, TheTargetItselfBreaksARun) {
  std::vector<double> scores(10, 0.1);
  scores[4] = 0;
  EXPECT_THAT(signals(scores), IsEmpty());
}

TEST(Control, Refusals) {
  EXPECT_EQ(control_signals({}, 0, 1).error().code, ErrorCode::too_small);
  EXPECT_EQ(control_signals({1}, 0, 0).error().field, "sd");
  EXPECT_EQ(control_signals({1e308}, -1e308, 1e-3).error().code, ErrorCode::not_finite);
}

// Turned upside down, the same values break the same rules.
RC_GTEST_PROP(Control, SidesAreAlike, (const std::vector<int>& raw)) {
  RC_PRE(!raw.empty());
  std::vector<double> up, down;
  for (const int value : raw) up.push_back(value % 50 / 10.0), down.push_back(-(value % 50) / 10.0);
  RC_ASSERT(signals(up) == signals(down));
}

TEST(Pairs, AgreeingPairsHaveNoScatter) {
  const auto result = pair_statistics({{1, 1}, {5, 5}});
  EXPECT_EQ(result->n, 2u);
  EXPECT_EQ(result->cv_average_pct, 0);
  EXPECT_EQ(result->repeat_sd, 0);
}

TEST(Pairs, AZeroAgainstAFigureIsTheMost) {
  const auto result = pair_statistics({{0, 3}});
  EXPECT_NEAR(result->cv_average_pct, 141.4214, 1e-4);
  EXPECT_EQ(result->half_ard_median_pct, 100);
}

TEST(Pairs, Refusals) {
  EXPECT_EQ(pair_statistics({}).error().code, ErrorCode::too_small);
  EXPECT_EQ(pair_statistics({{1, 2}, {1, -2}}).error().field, "pairs[1][1]");
  EXPECT_EQ(pair_statistics({{1, 2}, {0, 0}}).error().field, "pairs[1]");
}

RC_GTEST_PROP(Pairs, OrderAndUnitDoNotMatter, ()) {
  const auto raw = *rc::gen::nonEmpty(rc::gen::container<std::vector<std::pair<int, int>>>(
      rc::gen::pair(rc::gen::inRange(1, 10'000), rc::gen::inRange(1, 10'000))));
  std::vector<Pair> pairs, swapped;
  for (const auto& [a, b] : raw) pairs.push_back({double(a), double(b)}), swapped.push_back({b * 3.0, a * 3.0});
  const auto one = pair_statistics(pairs), other = pair_statistics(swapped);
  RC_ASSERT(std::abs(one->cv_average_pct - other->cv_average_pct) < 1e-9);
  RC_ASSERT(std::abs(one->half_ard_median_pct - other->half_ard_median_pct) < 1e-9);
  RC_ASSERT(std::abs(3 * one->repeat_sd - other->repeat_sd) < 1e-6);
}

// What the estimate solves, written out: both residuals, in scales.
std::pair<double, double> residuals(const std::vector<double>& values, const HuberEstimate& at, double k) {
  double sum = 0, squares = 0;
  for (const double value : values) {
    const double z = std::clamp((value - at.mean) / at.sd, -k, k);
    sum += z;
    squares += z * z;
  }
  const double n = static_cast<double>(values.size());
  return {sum / n, squares / (n - 1) - huber_beta(k)};
}

RC_GTEST_PROP(Huber, SolvesBothEquations, ()) {
  const auto raw = *rc::gen::suchThat(rc::gen::unique<std::vector<int>>(rc::gen::inRange(-5000, 5000)),
                                      [](const std::vector<int>& values) { return values.size() >= 3; });
  const std::vector<double> values(raw.begin(), raw.end());
  const double k = *rc::gen::inRange(7, 40) / 10.0;
  const HuberEstimate estimate = huber_proposal_2(values, k);
  RC_ASSERT(estimate.sd > 0);
  const auto [mean, spread] = residuals(values, estimate, k);
  RC_ASSERT(std::abs(mean) < 1e-9);
  RC_ASSERT(std::abs(spread) < 1e-9);
}

// Far from any clipping the estimate is the mean, and its scale the standard deviation over √β.
TEST(Huber, LargeKIsTheMean) {
  const std::vector<double> values{1, 2, 3, 4, 10};
  const HuberEstimate estimate = huber_proposal_2(values, 50);
  EXPECT_NEAR(estimate.mean, 4, 1e-12);
  EXPECT_NEAR(estimate.sd, std::sqrt(50 / 4.0), 1e-9);
}

TEST(Huber, TiedValuesLeaveNoScale) {
  const HuberEstimate estimate = huber_proposal_2({7, 7, 7, 7, 7, 7, 40});
  EXPECT_EQ(estimate.mean, 7);
  EXPECT_EQ(estimate.sd, 0);
  const HuberEstimate half = huber_proposal_2({7, 7, 7, 9, 8, 40});
  EXPECT_GT(half.sd, 0) << "a median deviation small against the rest is no obstacle";
}

TEST(Robust, GrubbsIsAbsentWithoutSpread) {
  const auto result = robust_statistics({2, 2, 2});
  ASSERT_TRUE(result.ok());
  EXPECT_FALSE(result->grubbs_g.has_value());
  EXPECT_EQ(result->median, 2);
}

TEST(Robust, Refusals) {
  EXPECT_EQ(robust_statistics({1, 2}).error().code, ErrorCode::too_small);
  EXPECT_EQ(robust_statistics({1, 2, 3}, 0).error().field, "k");
  EXPECT_EQ(robust_statistics({1e308, 1e308, -1e308, 1}).error().code, ErrorCode::not_finite);
}

// Moved and stretched values move and stretch every estimate; the test statistic stays.
RC_GTEST_PROP(Robust, FollowsShiftAndScale, ()) {
  const auto raw = *rc::gen::suchThat(rc::gen::unique<std::vector<int>>(rc::gen::inRange(0, 500)),
                                      [](const std::vector<int>& values) { return values.size() >= 4; });
  const double shift = *rc::gen::inRange(-100, 100), scale = *rc::gen::inRange(1, 50);
  std::vector<double> values(raw.begin(), raw.end()), moved;
  for (const double value : values) moved.push_back(scale * value + shift);
  const auto one = robust_statistics(values), other = robust_statistics(moved);
  RC_ASSERT(std::abs(scale * one->median + shift - other->median) < 1e-6);
  RC_ASSERT(std::abs(scale * one->mad_sd - other->mad_sd) < 1e-6);
  RC_ASSERT(std::abs(scale * one->huber.mean + shift - other->huber.mean) < 1e-6);
  RC_ASSERT(std::abs(scale * one->huber.sd - other->huber.sd) < 1e-6);
  RC_ASSERT(std::abs(*one->grubbs_g - *other->grubbs_g) < 1e-9);
}

TEST(Median, EvenAndOdd) {
  EXPECT_EQ(median({3, 1, 2}), 2);
  EXPECT_EQ(median({4, 1, 3, 2}), 2.5);
  EXPECT_EQ(median({1e308, 1.2e308}), 1.1e308);
}

TEST(Bias, ScoresByBothUncertainties) {
  const auto bias = bias_against_certified({5.5, 5, 0.3, 0.4});
  ASSERT_TRUE(bias.ok());
  EXPECT_DOUBLE_EQ(bias->difference, 0.5);
  EXPECT_DOUBLE_EQ(bias->relative_pct, 10);
  EXPECT_DOUBLE_EQ(bias->zeta.value(), 1);
  EXPECT_DOUBLE_EQ(bias->en.value(), 0.5);
}

TEST(Bias, NoScoreWithoutUncertainty) {
  const auto bias = bias_against_certified({4.5, 5, 0.3, {}});
  ASSERT_TRUE(bias.ok());
  EXPECT_DOUBLE_EQ(bias->difference, -0.5);
  EXPECT_FALSE(bias->zeta || bias->en);
  EXPECT_FALSE(bias_against_certified({4.5, 5, 0.0, 0.0})->zeta);
}

TEST(Bias, Refusals) {
  EXPECT_EQ(bias_against_certified({-1, 5, {}, {}}).error().field, "measured");
  EXPECT_EQ(bias_against_certified({1, 0, {}, {}}).error().field, "certified");
  EXPECT_EQ(bias_against_certified({1, 5, -0.1, {}}).error().field, "u_measured");
  EXPECT_EQ(bias_against_certified({1, 5, 0.1, std::numeric_limits<double>::quiet_NaN()}).error().field, "u_certified");
  EXPECT_EQ(bias_against_certified({std::numeric_limits<double>::infinity(), 5, {}, {}}).error().code, ErrorCode::not_finite);
}

}  // namespace
}  // namespace prillbook
