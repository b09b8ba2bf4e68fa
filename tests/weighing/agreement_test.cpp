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
  EXPECT_NEAR(largest_spread(2, Mass(0.002, unit::milligram)).in(unit::milligram), 0.0084, 1e-12);
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
