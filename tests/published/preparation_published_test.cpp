// SPDX-License-Identifier: GPL-3.0-or-later
// Figures of preparation printed outside the project.
#include <gtest/gtest.h>

#include <boost/math/distributions/poisson.hpp>
#include <cmath>
#include <numbers>

#include "core/assay/moisture.h"
#include "core/preparation/composite.h"
#include "core/preparation/grains.h"
#include "core/preparation/gy.h"
#include "core/preparation/splitting.h"
#include "tests/support/masses.h"

namespace prillbook {
namespace {

Grade percent(double value) { return {value, unit::percent_of_mass}; }
double in_percent(Grade grade) { return grade.in(unit::percent_of_mass); }

// Source: Whateley and Scott in Introduction to Mineral Exploration, 2nd ed., table 10.4, p. 206: eight intervals,
// 12.0 % weighted by length, 12.2 % by length and specific gravity.
TEST(PublishedPreparation, IntervalsWeightedByLengthAndGravity) {
  const double length[] = {1.5, 2, 1.5, 1, 1, 2, 1.5, 1}, grade[] = {8.7, 15.3, 18.1, 7.6, 5.1, 14.9, 8.2, 12.3};
  const double gravity[] = {3.03, 3.27, 3.37, 2.99, 2.91, 3.26, 3.01, 3.16};
  std::vector<CompositePart> by_length, by_both;
  for (int i = 0; i < 8; ++i) {
    by_length.push_back({length[i], percent(grade[i])});
    by_both.push_back({length[i] * gravity[i], percent(grade[i])});
  }
  EXPECT_NEAR(in_percent(*composite_grade(by_length)), 12.0, 0.05);
  EXPECT_NEAR(in_percent(*composite_grade(by_both)), 12.2, 0.05);
}

// Source: the same book, table 5.2, p. 76: nineteen widths; 1.354 % over 4.00 m, 2.258 % over the last 2.10 m, 1.587 % over
// the last 3.40 m.
TEST(PublishedPreparation, WidthsOfAChannel) {
  const std::pair<double, double> widths[] = {{.30, .01},  {.30, .05},  {.30, .13},  {.20, .17},  {.20, .25},
                                              {.20, .64},  {.20, .92},  {.20, 1.10}, {.20, 2.30}, {.20, 1.20},
                                              {.20, 2.10}, {.20, 5.30}, {.23, 1.40}, {.15, 2.00}, {.20, 1.90},
                                              {.20, 1.80}, {.20, 1.30}, {.20, 2.60}, {.12, 3.50}};
  const auto over = [&](std::size_t first) {
    std::vector<CompositePart> parts;
    for (std::size_t i = first; i < std::size(widths); ++i) parts.push_back({widths[i].first, percent(widths[i].second)});
    return in_percent(*composite_grade(parts));
  };
  EXPECT_NEAR(over(0), 1.354, 0.0005);
  EXPECT_NEAR(over(8), 2.258, 0.0005);
  EXPECT_NEAR(over(2), 1.587, 0.0005);
}

// Source: C. and J. J. Beringer, A Text-Book of Assaying, 9th ed. (1904), on moisture, read in the Gutenberg text 18751:
// wolfram, dish and ore 32.67 g, dish 12.67 g, dried 30.15 g, printed 12.6 %; pyrites, glasses and ore 31.0470 g, glasses
// 26.0470 g, dried 30.8957 g, 3.026 printed as 3.02 %.
TEST(PublishedPreparation, MoistureOfBeringer) {
  const auto wet_basis = [](double wet_g, double dry_g, double dish_g) {
    return moisture(g(wet_g - dish_g), g(dry_g - dish_g))->wet_basis.in(unit::percent);
  };
  EXPECT_NEAR(wet_basis(32.67, 30.15, 12.67), 12.6, 1e-9);
  EXPECT_NEAR(wet_basis(31.0470, 30.8957, 26.0470), 3.026, 1e-9);
}

// Source: encyclopaedia, "riffle splitter": an even number of equal chutes, at least 2.5 times as wide as the largest piece.
TEST(PublishedPreparation, RiffleForItsTopSize) {
  const Opening top(10, unit::millimetre);
  EXPECT_DOUBLE_EQ(least_chute_width(top).in(unit::millimetre), 25);
  EXPECT_TRUE(riffle_faults({8, Opening(25, unit::millimetre)}, top).empty());
  EXPECT_EQ(riffle_faults({8, Opening(24, unit::millimetre)}, top).size(), 1u);
  EXPECT_EQ(riffle_faults({7, Opening(20, unit::millimetre)}, top).size(), 2u);
}

// Source: Allen and Khan 1970; the order of the four ways was read in a handbook, the figures are from memory.
TEST(PublishedPreparation, OrderOfTheWaysOfSplitting) {
  EXPECT_LT(method_sd_pct(SplitMethod::rotary), method_sd_pct(SplitMethod::riffle));
  EXPECT_LT(method_sd_pct(SplitMethod::riffle), method_sd_pct(SplitMethod::scoop));
  EXPECT_LT(method_sd_pct(SplitMethod::scoop), method_sd_pct(SplitMethod::cone_and_quarter));
}

// Source: P. Gy's formula (Chemom. Intell. Lab. Syst. 74, 2004, eq. 77) and the Poisson law must agree on free spheres:
// f = π/6, g = 1, l = 1 is 1/√n.
TEST(PublishedPreparation, GyOfFreeSpheresIsPoisson) {
  const Opening size(106, unit::micrometre);
  GyInput input{size, size, Grade(5, unit::gram_per_tonne), g(30), {}, {}};
  input.shape = std::numbers::pi / 6;
  input.range_factor = 1;
  const auto count = grain_count(input.grade, input.mass, {size, {}});
  EXPECT_NEAR(gy_error(input)->relative_sd_pct, count->relative_sd_pct, 1e-9 * count->relative_sd_pct);
}

// Source: Boost.Math, whose Poisson law answers for the range of the count and the chance of none.
TEST(PublishedPreparation, CountsAgainstBoost) {
  const GrainShape grain{Opening(425, unit::micrometre), {}};
  for (const double mean : {0.193, 1.0, 6.45, 20.0, 137.0}) {
    const auto count = grain_count(Grade(1, unit::gram_per_tonne), mean * grain_mass(grain) * 1e6, grain);
    const boost::math::poisson_distribution<double> law(mean);
    EXPECT_NEAR(count->none_probability, pdf(law, 0), 1e-12);
    EXPECT_GE(cdf(law, count->hi), 0.975);
    EXPECT_LT(count->hi > 0 ? cdf(law, count->hi - 1) : 0.0, 0.975);
    EXPECT_GE(cdf(law, count->lo), 0.025);
  }
}

// Source: Bradt, Astronomy Methods, table 6.1, printed chances of a Poisson count: means 1, 2 and 3. The number of grains
// in a portion follows it.
TEST(PublishedPreparation, PrintedChancesOfACount) {
  const double printed[3][4] = {{.368, .368, .184, .061}, {.135, .271, .271, .180}, {.050, .149, .224, .224}};
  const GrainShape grain{Opening(100, unit::micrometre), {}};
  for (int mean = 1; mean <= 3; ++mean) {
    const auto count = grain_count(Grade(1, unit::gram_per_tonne), mean * grain_mass(grain) * 1e6, grain);
    double chance = count->none_probability;
    for (int k = 0; k < 4; ++k) {
      EXPECT_NEAR(chance, printed[mean - 1][k], 0.0006);
      chance *= count->expected / (k + 1);
    }
  }
}

}  // namespace
}  // namespace prillbook
