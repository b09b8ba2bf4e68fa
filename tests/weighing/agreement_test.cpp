// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/weighing/agreement.h"

#include <gtest/gtest.h>

#include <boost/math/distributions/normal.hpp>
#include <cmath>

#include "core/units/units.h"
#include "tests/support/records.h"

namespace prillbook::weighing {
namespace {

using testing_support::figure;

// ISO 5725-6, table 1, to one decimal; from memory. Two weighings: the normal quantile of Boost.Math times the root of two.
TEST(Agreement, CriticalRange) {
  const double by_quantile = std::sqrt(2.0) * boost::math::quantile(boost::math::normal(), 0.975);
  EXPECT_NEAR(critical_range_factor(2), by_quantile, 0.05);
  EXPECT_EQ(critical_range_factor(3), 3.3);
  EXPECT_EQ(critical_range_factor(10), 4.5);
  for (std::size_t n = 2; n < 30; ++n) EXPECT_LE(critical_range_factor(n), critical_range_factor(n + 1)) << n;
  EXPECT_NEAR(largest_spread(2, Mass(0.002, unit::milligram)).in(unit::milligram), 0.0112, 1e-12);
}

std::optional<Disagreement> apart(const std::vector<std::string>& masses, const std::string& sd = "", bool tared = false) {
  std::vector<readings::Reading> repeats;
  for (const std::string& mass : masses) repeats.push_back(figure(mass));
  return disagreement(repeats, sd.empty() ? std::nullopt : std::optional(figure(sd).mass()), tared);
}

TEST(Agreement, TheLastDigitStandsInForAScatterThatIsNotKnown) {
  EXPECT_FALSE(apart({"0.234 mg"}));
  EXPECT_FALSE(apart({"0.234 mg", "0.239 mg"}));
  ASSERT_TRUE(apart({"0.234 mg", "0.240 mg"}));
  EXPECT_NEAR(apart({"0.234 mg", "0.240 mg"})->range.in(unit::milligram), 0.006, 1e-12);
  EXPECT_TRUE(apart({"0.23 mg", "0.240 mg"})) << "a zero at the end is seldom typed";
  EXPECT_FALSE(apart({"0.2 mg", "0.3 mg"})) << "both were read to a tenth";
}

TEST(Agreement, AScatterThatIsKnownAndATare) {
  EXPECT_FALSE(apart({"1.234 mg", "1.345 mg"}, "0.02 mg")) << "0.112 mg are allowed";
  EXPECT_TRUE(apart({"1.234 mg", "1.347 mg"}, "0.02 mg"));
  EXPECT_FALSE(apart({"1.234 mg", "1.391 mg"}, "0.02 mg", true)) << "times the root of two: 0.158 mg";
  EXPECT_TRUE(apart({"1.234 mg", "1.393 mg"}, "0.02 mg", true));
}

TEST(Agreement, MoreWeighingsMayLieFurtherApart) {
  EXPECT_TRUE(apart({"0.234 mg", "0.240 mg"}));
  EXPECT_FALSE(apart({"0.234 mg", "0.237 mg", "0.240 mg"})) << "0.0066 mg";
}

TEST(Agreement, HalfAPerCentIsLetPass) {
  EXPECT_FALSE(apart({"22.000 mg", "22.100 mg"}));
  EXPECT_TRUE(apart({"22.000 mg", "22.200 mg"}));
}

std::string exchanged(const std::string& one, const std::string& other, const std::string& apart = "0.004 mg") {
  const readings::Reading others[] = {figure(other)};
  return with_digits_exchanged(figure(one), others, figure(apart).mass()).value_or("");
}

TEST(Agreement, DigitsThatWereExchanged) {
  EXPECT_EQ(exchanged("1.243 mg", "1.235 mg"), "1.234 mg");
  EXPECT_EQ(exchanged("13.24 mg", "12.34 mg"), "12.34 mg") << "over the point";
  EXPECT_EQ(exchanged("0.91 mg", "0.19 mg"), "0.19 mg");
  EXPECT_EQ(exchanged("1.243 mg", "1.289 mg"), "");
  EXPECT_EQ(exchanged("1.22 mg", "1.29 mg"), "");
  EXPECT_EQ(exchanged("7 mg", "9 mg"), "");
}

TEST(Agreement, ADecimalCommaStaysOne) {
  const auto read = [](const std::string& text) {
    return *readings::parse(text, {Measure::mass, "mg", DecimalMark::comma, true});
  };
  const readings::Reading others[] = {read("1,234")};
  EXPECT_EQ(with_digits_exchanged(read("1,324"), others, Mass(0.004, unit::milligram)), "1,234");
}

}  // namespace
}  // namespace prillbook::weighing
