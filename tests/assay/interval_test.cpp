// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/assay/interval.h"

#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <numbers>
#include <random>

namespace prillbook {
namespace {

using enum UncertaintySource;

// Uniform in (0, 1) and standard normal from raw bits: the distributions of the standard library differ between makers.
double uniform(std::mt19937_64& bits) { return (static_cast<double>(bits() >> 11) + 0.5) / 9007199254740992.0; }
double standard_normal(std::mt19937_64& bits) {
  return std::sqrt(-2 * std::log(uniform(bits))) * std::cos(2 * std::numbers::pi * uniform(bits));
}
double student(std::mt19937_64& bits, int dof) {
  double squares = 0;
  for (int i = 0; i < dof; ++i) squares += std::pow(standard_normal(bits), 2);
  return standard_normal(bits) / std::sqrt(squares / dof);
}

TEST(Interval, RectangleAloneKeeps95PerCentOfItsWidth) {
  const std::array<Contribution, 1> parts{rectangle_part(fineness, -30, 30)};
  const Spread result = spread(750, parts);
  EXPECT_EQ(result.method, IntervalMethod::convolution);
  EXPECT_NEAR(result.u, 17.3205, 1e-4);
  EXPECT_NEAR(result.lo, 750 - 28.5, 1e-9);
  EXPECT_NEAR(result.hi, 750 + 28.5, 1e-9);
}

TEST(Interval, ConvolutionAgreesWithDraws) {
  for (const int dof : {0, 1, 3}) {
    std::mt19937_64 bits(20260504);
    std::vector<double> draws(200'000);
    for (double& draw : draws) draw = -30 + 60 * uniform(bits) + 8 * (dof == 0 ? standard_normal(bits) : student(bits, dof));
    std::sort(draws.begin(), draws.end());
    for (const double p : {0.025, 0.5, 0.975}) {
      const double drawn = draws[static_cast<std::size_t>(p * static_cast<double>(draws.size()))];
      const double solved = convolved_quantile(p, -30, 30, 8, dof == 0 ? infinite_dof : dof);
      EXPECT_NEAR(solved, drawn, dof == 1 && p != 0.5 ? 3.5 : 0.5) << "dof " << dof << ", p " << p;
    }
  }
}

TEST(Interval, SmallRectangleLeavesStudentsFactor) {
  const std::array<Contribution, 2> parts{normal_part(bead_repeats, 1, 4), rectangle_part(bead_step, -0.1, 0.1)};
  const Spread result = spread(10, parts);
  EXPECT_EQ(result.method, IntervalMethod::student);
  EXPECT_EQ(result.dof, 4);
  EXPECT_NEAR(result.k, 2.776, 5e-4);
}

TEST(Interval, TwoEqualRectanglesAreNotOne) {
  const std::array<Contribution, 2> parts{rectangle_part(bead_step, -1, 1), rectangle_part(portion_step, -1, 1)};
  EXPECT_EQ(spread(0, parts).method, IntervalMethod::student);
}

TEST(Interval, ScalingTurnsARectangleOver) {
  const Contribution turned = scaled(rectangle_part(fineness, -10, 30), -2);
  EXPECT_EQ(turned.low, -60);
  EXPECT_EQ(turned.high, 20);
  EXPECT_NEAR(turned.u, 80 / std::sqrt(12.0), 1e-12);
}

RC_GTEST_PROP(IntervalLaw, ConvolvedQuantileLiesBetweenItsParts, ()) {
  const double width = *rc::gen::inRange(1, 1000) / 10.0, u = *rc::gen::inRange(0, 1000) / 10.0;
  const double dof = *rc::gen::element(1.0, 2.0, 5.0, 30.0, infinite_dof);
  const double low = -width * *rc::gen::inRange(0, 100) / 100.0, high = low + width;
  const double lo = convolved_quantile(0.025, low, high, u, dof), hi = convolved_quantile(0.975, low, high, u, dof);
  RC_ASSERT(lo < hi);
  RC_ASSERT(lo >= low - coverage_factor(dof) * u - 1e-9);
  RC_ASSERT(hi <= high + coverage_factor(dof) * u + 1e-9);
  RC_ASSERT(std::abs((lo - low) - (high - hi)) < 1e-6 * (width + u));  // symmetric about the middle
}

RC_GTEST_PROP(IntervalLaw, WiderWithEveryPart, ()) {
  const double base = *rc::gen::inRange(1, 100) / 10.0, more = *rc::gen::inRange(1, 100) / 10.0;
  const std::array<Contribution, 2> parts{normal_part(bead_repeats, base), normal_part(portion_step, more)};
  const Spread one = spread(5, std::span(parts).first(1)), both = spread(5, parts);
  RC_ASSERT(both.u > one.u);
  RC_ASSERT(both.lo < one.lo && both.hi > one.hi);
}

}  // namespace
}  // namespace prillbook
