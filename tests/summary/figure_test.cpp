// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/summary/figure.h"

#include <gtest/gtest.h>

#include "tests/support/records.h"

namespace prillbook::summary {
namespace {

constexpr auto point = DecimalMark::point;

TEST(FigureTest, RoundsByTheInterval) {
  EXPECT_EQ(figure(16.4938, 15.6, 17.4, "g/t", {}, point).written, "16.5 ± 0.9");
  EXPECT_EQ(figure(16.4938, 15.6, 17.4, "g/t", {}, point).hi_digits, "17.4");
  EXPECT_EQ(figure(16.4938, 15.6, 17.4, "g/t", {}, DecimalMark::comma).written, "16,5 ± 0,9");
}

TEST(FigureTest, ALopsidedIntervalIsWrittenByItsEnds) {
  EXPECT_EQ(figure(16.5, 11.0, 17.0, "g/t", {}, point).written, "17 (11 to 17)");
  EXPECT_EQ(figure(16.5, 15.0, 17.0, "g/t", {}, point).written, "16.5 (15.0 to 17.0)");
}

TEST(FigureTest, ZeroIsALimitRoundedUp) {
  EXPECT_EQ(limit(0.0512, "g/t", point).written, "< 0.06");
  EXPECT_EQ(limit(0.05, "g/t", point).written, "< 0.05");
  EXPECT_EQ(limit(2.01, "g/t", point).written, "< 2.1");
  EXPECT_EQ(limit({}, "g/t", point).written, "none seen");
  EXPECT_EQ(figure(0.001, 0, 0.4, "g/t", {}, point).written, "< 0.4");
}

TEST(FigureTest, WithoutAnIntervalThreeDigits) { EXPECT_EQ(figure(16.4938, {}, {}, "g/t", {}, point).written, "16.5"); }

TEST(FigureTest, AMassKeepsTheDigitsThatWereTyped) {
  EXPECT_EQ(mass_figure(testing_support::figure("0.0220 g"), unit::milligram, point).digits, "22.0");
  EXPECT_EQ(mass_figure(testing_support::figure("1 kg"), unit::gram, point).digits, "1000");
  EXPECT_EQ(mass_figure(testing_support::figure("<0.01 mg"), unit::milligram, point).written, "< 0.01");
  EXPECT_EQ(as_typed(testing_support::figure("4.10 kg"), DecimalMark::comma), "4,10 kg");
}

RC_GTEST_PROP(FigureProperty, TheDigitsLieWithinTheInterval, ()) {
  const double value = *rc::gen::map(rc::gen::inRange(1, 1'000'000), [](int n) { return n / 997.0; });
  const double half = value * *rc::gen::map(rc::gen::inRange(1, 900), [](int n) { return n / 1000.0; });
  const Figure f = figure(value, value - half, value + half, "g/t", {}, point);
  const double digits = std::stod(f.digits);
  RC_ASSERT(std::abs(digits - value) <= half * 0.26);
}

// A limit is never below what it limits, nor more than half as much again above it.
RC_GTEST_PROP(FigureProperty, ALimitIsNeverRoundedDown, ()) {
  const double hi = *rc::gen::map(rc::gen::inRange(1, 1'000'000), [](int n) { return n / 997.0; });
  const double digits = std::stod(limit(hi, "g/t", point).hi_digits);
  RC_ASSERT(digits >= hi * (1 - 1e-8));
  RC_ASSERT(digits <= hi * 1.5);
}

}  // namespace
}  // namespace prillbook::summary
