// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/sieving/fits.h"

#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include <cmath>

namespace prillbook {
namespace {

SieveRow row(double um, double passing_pct) { return {Opening(um, unit::micrometre), 0, 100 - passing_pct, passing_pct}; }

const std::vector<double> openings{1000, 500, 250, 125, 63};

template <class Law>
std::vector<SieveRow> curve(const SizeLaw& law, Law passing) {
  std::vector<SieveRow> rows;
  for (const double um : openings) rows.push_back(row(um, 100 * passing(law, Opening(um, unit::micrometre))));
  return rows;
}

// Points taken from a law give the law back.
RC_GTEST_PROP(Fits, FindTheLawTheyWereDrawnFrom, ()) {
  const SizeLaw law{*rc::gen::inRange(30, 150) / 100.0, Opening(*rc::gen::inRange(1100, 2000), unit::micrometre), 1};
  const auto schuhmann = gaudin_schuhmann(curve(law, gaudin_schuhmann_passing));
  RC_ASSERT(schuhmann.has_value());
  RC_ASSERT(std::abs(schuhmann->slope - law.slope) < 1e-9);
  RC_ASSERT(std::abs(schuhmann->size / law.size - 1) < 1e-9);
  RC_ASSERT(schuhmann->r2 > 1 - 1e-9);
  const auto rosin = rosin_rammler(curve(law, rosin_rammler_passing));
  RC_ASSERT(rosin.has_value());
  RC_ASSERT(std::abs(rosin->slope - law.slope) < 1e-9);
  RC_ASSERT(std::abs(rosin->size / law.size - 1) < 1e-9);
}

TEST(Fits, LeaveOutNothingAndEverything) {
  const std::vector<SieveRow> inner{row(500, 80), row(250, 50), row(125, 20)};
  std::vector<SieveRow> all = inner;
  all.insert(all.begin(), row(1000, 100));
  all.push_back(row(63, 0));
  EXPECT_EQ(gaudin_schuhmann(all)->slope, gaudin_schuhmann(inner)->slope);
  EXPECT_EQ(rosin_rammler(all)->size, rosin_rammler(inner)->size);
}

TEST(Fits, AbsentWithoutTwoRisingPoints) {
  EXPECT_FALSE(gaudin_schuhmann({row(500, 100), row(250, 50), row(125, 0)}).has_value());
  EXPECT_FALSE(rosin_rammler({row(500, 50), row(250, 50)}).has_value());
  EXPECT_FALSE(rosin_rammler({}).has_value());
}

// Identities of the laws themselves, our own arithmetic: x' passes 1 - 1/e, and with n = 1 half of it passes 39.35 %.
TEST(Fits, LawsAtTheirOwnSizes) {
  const SizeLaw rosin{1, Opening(100, unit::micrometre), 1};
  EXPECT_NEAR(rosin_rammler_passing(rosin, Opening(100, unit::micrometre)), 1 - std::exp(-1), 1e-15);
  EXPECT_NEAR(rosin_rammler_passing(rosin, Opening(50, unit::micrometre)), 0.393469, 1e-6);
  const SizeLaw schuhmann{0.5, Opening(1000, unit::micrometre), 1};
  EXPECT_NEAR(gaudin_schuhmann_passing(schuhmann, Opening(640, unit::micrometre)), 0.8, 1e-15);
  EXPECT_EQ(gaudin_schuhmann_passing(schuhmann, Opening(2000, unit::micrometre)), 1);
}

TEST(Fits, AreJudgedByTheirWorstSieve) {
  const SizeLaw law{1, Opening(1000, unit::micrometre), 1, 5};
  const auto judged = [&](double off, int points) {
    SizeLaw of = law;
    of.points = points;
    return judge(of, gaudin_schuhmann_passing, {row(800, 80), row(400, 40 + off), row(200, 20)});
  };
  EXPECT_EQ(judged(0, 5).trust, FitTrust::good);
  EXPECT_EQ(judged(1.9, 5).trust, FitTrust::good);
  EXPECT_EQ(judged(-4.9, 5).trust, FitTrust::fair);
  EXPECT_EQ(judged(5.1, 5).trust, FitTrust::poor);
  EXPECT_NEAR(judged(5.1, 5).worst_pct, 5.1, 1e-9);
  EXPECT_EQ(judged(0, 3).trust, FitTrust::too_few) << "three points lie near almost any line";
}

}  // namespace
}  // namespace prillbook
