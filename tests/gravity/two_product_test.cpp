// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/gravity/two_product.h"

#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include <cmath>

namespace prillbook {
namespace {

Grade g_t(double value) { return {value, unit::gram_per_tonne}; }

TEST(TwoProduct, LimitsOfTheSeparation) {
  EXPECT_EQ(two_product(g_t(5), g_t(100), g_t(0))->recovery_pct, 100);
  EXPECT_EQ(two_product(g_t(5), g_t(100), g_t(5))->recovery_pct, 0);
  EXPECT_EQ(two_product(g_t(5), g_t(5), g_t(1))->mass_yield_pct, 100);
}

TEST(TwoProduct, RefusesImpossibleGrades) {
  EXPECT_EQ(two_product(g_t(5), g_t(3), g_t(4)).error().field, "concentrate_g_t");
  EXPECT_EQ(two_product(g_t(5), g_t(3), g_t(4)).error().code, ErrorCode::inconsistent);
  EXPECT_EQ(two_product(g_t(5), g_t(50), g_t(6)).error().field, "feed_g_t");
  EXPECT_EQ(two_product(g_t(60), g_t(50), g_t(6)).error().code, ErrorCode::inconsistent);
  EXPECT_EQ(two_product(g_t(5), g_t(5), g_t(5)).error().code, ErrorCode::inconsistent);
  EXPECT_EQ(two_product(g_t(0), g_t(5), g_t(0)).error().code, ErrorCode::out_of_range);
}

// Split a feed of known masses and grades, and find the split again.
RC_GTEST_PROP(TwoProduct, FindsTheSplitAgain, ()) {
  const double yield = *rc::gen::inRange(1, 99) / 100.0, tail = *rc::gen::inRange(0, 100) / 10.0;
  const double concentrate = tail + *rc::gen::inRange(1, 10'000) / 10.0;
  const double feed = yield * concentrate + (1 - yield) * tail;
  const auto result = two_product(g_t(feed), g_t(concentrate), g_t(tail));
  RC_ASSERT(result.ok());
  RC_ASSERT(std::abs(result->mass_yield_pct - 100 * yield) < 1e-6);
  RC_ASSERT(std::abs(result->recovery_pct - 100 * yield * concentrate / feed) < 1e-6);
  RC_ASSERT(result->recovery_pct >= 0 && result->recovery_pct <= 100 + 1e-9);
}

}  // namespace
}  // namespace prillbook
