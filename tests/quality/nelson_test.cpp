// SPDX-License-Identifier: GPL-3.0-or-later
// Nelson's tests, stated uncertainties and precision against grade.
#include "core/quality/nelson.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include <algorithm>
#include <cmath>

#include "core/quality/certified.h"
#include "core/quality/precision.h"

namespace prillbook {
namespace {

std::vector<NelsonSignal> nelson(const std::vector<double>& scores) { return *nelson_signals(scores, 0, 1); }

TEST(Nelson, TheNewestValueIsOneOfThoseThatCount) {
  EXPECT_THAT(nelson({2.1, 2.2, 0}), testing::ElementsAre(NelsonSignal{1, NelsonRule::two_of_three_2s}))
      << "the third does not signal for two that went before";
  EXPECT_THAT(nelson({2.1, 0, 2.2}), testing::ElementsAre(NelsonSignal{2, NelsonRule::two_of_three_2s}));
  EXPECT_THAT(nelson({2.1, 0, 0, 2.2}), testing::IsEmpty());
}

TEST(Nelson, LimitsAndTheTargetAreInside) {
  EXPECT_THAT(nelson({3, -3}), testing::IsEmpty());
  EXPECT_THAT(nelson({0, 0, 0, 0, 0, 0, 0, 0, 0}), testing::IsEmpty()) << "the target is on no side";
  EXPECT_THAT(*nelson_signals({10.3}, 10, 0.1), testing::IsEmpty()) << "10.3 - 10 is a little above 0.3 in binary";
}

TEST(Nelson, EqualValuesNeitherRiseNorSwing) {
  EXPECT_THAT(nelson({0.1, 0.2, 0.2, 0.3, 0.4, 0.5}), testing::IsEmpty());
  std::vector<double> swinging;
  for (int i = 0; i < 14; ++i) swinging.push_back(i % 2 ? 1.5 : -1.5);
  swinging[7] = swinging[6];
  for (const NelsonSignal& one : nelson(swinging)) EXPECT_NE(one.rule, NelsonRule::fourteen_swinging);
}

TEST(Nelson, Refusals) {
  EXPECT_EQ(nelson_signals({}, 0, 1).error().code, ErrorCode::too_small);
  EXPECT_EQ(nelson_signals({1}, 0, 0).error().code, ErrorCode::out_of_range);
  EXPECT_EQ(nelson_signals({1e300}, 0, 1e-300).error().code, ErrorCode::not_finite);
}

RC_GTEST_PROP(Nelson, SidesAreAlike, (const std::vector<int>& raw)) {
  RC_PRE(!raw.empty());
  std::vector<double> scores, turned;
  for (const int one : raw) scores.push_back((one % 50) / 10.0), turned.push_back(-scores.back());
  RC_ASSERT(nelson(scores) == nelson(turned));
}

TEST(StatedUncertainty, HasItsThreeMeanings) {
  EXPECT_EQ(standard_uncertainty(0.12, StatedUncertainty::standard), 0.12);
  EXPECT_EQ(standard_uncertainty(0.12, StatedUncertainty::expanded), 0.06);
  EXPECT_EQ(find_stated_uncertainty("limits"), StatedUncertainty::limits);
  EXPECT_FALSE(find_stated_uncertainty("about"));
}

// A scatter of one part in ten on top of a fixed one comes out again: the differences are laid out at their normal quantiles.
TEST(Precision, FindsTheScatterThatWasPutIn) {
  std::vector<Pair> pairs;
  for (int group = 1; group <= 4; ++group) {
    const double grade = 10.0 * group, sd = 0.2 + 0.1 * grade;
    for (int i = 0; i < 11; ++i) {
      // |a - b| of eleven pairs, symmetric about its median 0.95387 sd.
      const double difference = 0.95387 * sd * (0.5 + 0.1 * i);
      pairs.push_back({grade - difference / 2, grade + difference / 2});
    }
  }
  const Precision found = *precision_by_grade(pairs);
  ASSERT_EQ(found.groups.size(), 4u);
  EXPECT_NEAR(*found.rise, 0.1, 1e-5);
  EXPECT_NEAR(*found.sd_at_zero, 0.2, 1e-4);
}

TEST(Precision, FewPairsAreOneGroupWithoutALine) {
  const Precision found = *precision_by_grade({{1, 1.2}, {4, 4.4}});
  ASSERT_EQ(found.groups.size(), 1u);
  EXPECT_EQ(found.groups[0].pairs, 2u);
  EXPECT_FALSE(found.rise);
  EXPECT_EQ(precision_by_grade({}).error().code, ErrorCode::too_small);
  const std::vector<Pair> alike(24, Pair{5, 5.5});
  EXPECT_FALSE(precision_by_grade(alike)->rise) << "all of one grade";
}

RC_GTEST_PROP(Precision, EveryPairIsInOneGroup, ()) {
  const auto values =
      *rc::gen::container<std::vector<unsigned>>(*rc::gen::inRange<std::size_t>(1, 60), rc::gen::inRange(1u, 9999u));
  std::vector<Pair> pairs;
  for (const unsigned one : values) pairs.push_back({one / 100.0, one / 90.0});
  std::size_t held = 0;
  const Precision found = *precision_by_grade(pairs);
  for (const PrecisionGroup& group : found.groups) held += group.pairs;
  RC_ASSERT(held == pairs.size());
}

}  // namespace
}  // namespace prillbook
