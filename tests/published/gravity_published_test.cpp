// SPDX-License-Identifier: GPL-3.0-or-later
// Two-product recoveries printed outside the project.
#include <gtest/gtest.h>

#include "core/gravity/two_product.h"

namespace prillbook {
namespace {

Grade pct(double value) { return {value, unit::percent_of_mass}; }

// Source: a mineral-dressing examination item: feed 10, concentrate 30, tail 1, recovery 93.103 %.
TEST(PublishedGravity, ExaminationItem) {
  const auto result = two_product(pct(10), pct(30), pct(1));
  EXPECT_NEAR(result->recovery_pct, 93.103, 0.0005);
  EXPECT_NEAR(100 / result->mass_yield_pct, 3.222, 0.0005) << "ratio of concentration";
  EXPECT_NEAR(result->enrichment, 3.0, 1e-12);
}

// Source: an engineering page on recovery: 1.0, 10 and 0.2 %.
TEST(PublishedGravity, EngineeringPage) {
  const auto result = two_product(pct(1.0), pct(10), pct(0.2));
  EXPECT_NEAR(result->recovery_pct, 81.63, 0.005);
  EXPECT_NEAR(result->mass_yield_pct, 8.163, 0.0005);
  EXPECT_NEAR(100 / result->mass_yield_pct, 12.25, 0.005);
}

// From memory: Wills' Mineral Processing Technology, 0.8, 25 and 0.15 % copper.
TEST(PublishedGravity, CopperFromMemory) {
  const auto result = two_product(pct(0.8), pct(25), pct(0.15));
  EXPECT_NEAR(result->recovery_pct, 81.74, 0.005);
  EXPECT_NEAR(100 / result->mass_yield_pct, 38.23, 0.005);
  EXPECT_NEAR(result->enrichment, 31.25, 0.005);
}

}  // namespace
}  // namespace prillbook
