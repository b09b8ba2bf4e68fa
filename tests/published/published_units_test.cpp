// SPDX-License-Identifier: GPL-3.0-or-later
// Units against printed factors. Each check names its source.
#include <gtest/gtest.h>

#include "core/units/units.h"

namespace prillbook {
namespace {

// NIST SP 811 (2008), appendix B.8: factors as printed, seven digits.
TEST(PublishedUnits, NistSp811AppendixB8) {
  EXPECT_NEAR(Mass(1, unit::grain).in(unit::kilogram), 6.479891e-05, 1e-12);
  EXPECT_NEAR(Mass(1, unit::troy_ounce).in(unit::gram), 31.10348, 5e-6);
  EXPECT_NEAR(Mass(1, unit::pennyweight).in(unit::gram), 1.555174, 5e-7);
  EXPECT_NEAR(Mass(12, unit::troy_ounce).in(unit::kilogram), 0.3732417, 5e-8);  // troy pound
  EXPECT_NEAR(Mass(1, unit::pound).in(unit::kilogram), 0.4535924, 5e-8);
  EXPECT_NEAR(Mass(1, unit::short_ton).in(unit::kilogram), 907.1847, 5e-5);
  EXPECT_NEAR(Mass(1, unit::long_ton).in(unit::kilogram), 1016.047, 5e-4);
  // assay ton, short: milligrams of bead on 29.16667 g are troy ounces in the short ton
  EXPECT_NEAR(grade(Mass(1, unit::milligram), Mass(29.16667, unit::gram)).in(unit::ounce_per_short_ton), 1, 1e-6);
}

// Beringer, A Text-book of Assaying, 9th ed. 1904, p. 8, 13, 131; Rose, The Metallurgy of Gold, p. 496. Printed truncated.
TEST(PublishedUnits, OuncesInATon) {
  EXPECT_NEAR(Mass(1, unit::short_ton) / Mass(1, unit::troy_ounce), 29166.6, 0.1);
  EXPECT_NEAR(Mass(1, unit::long_ton) / Mass(1, unit::troy_ounce), 32666.6, 0.1);
  EXPECT_NEAR(grade(Mass(1, unit::milligram), Mass(32.666, unit::gram)).in(unit::ounce_per_long_ton), 1, 3e-5);
  // Beringer p. 8: parts in 100 000 to the long ton: 0.327 oz, 6.53 dwt
  EXPECT_NEAR(Grade(10, unit::gram_per_tonne).in(unit::ounce_per_long_ton), 0.327, 5e-4);
  EXPECT_NEAR(Grade(10, unit::gram_per_tonne).in(unit::pennyweight_per_long_ton), 6.53, 5e-3);
}

// Agricola, De Re Metallica, tr. Hoover 1912, book VII note 27: 1 % is 291 oz 13 dwt 8 gr to the short ton.
TEST(PublishedUnits, OnePerCentInOuncesPerShortTon) {
  const double ounces = 291 + 13.0 / 20 + 8.0 / 480;
  EXPECT_NEAR(Grade(1, unit::percent_of_mass).in(unit::ounce_per_short_ton), ounces, 1e-9);
}

// Rose p. 496 with the assay tons 29.1667 and 32.6667 g.
TEST(PublishedUnits, OuncePerTonInGramsPerTonne) {
  EXPECT_NEAR(Grade(1, unit::ounce_per_short_ton).in(unit::gram_per_tonne), 34.2857, 5e-5);
  EXPECT_NEAR(Grade(1, unit::ounce_per_long_ton).in(unit::gram_per_tonne), 30.6122, 5e-5);
  EXPECT_NEAR(Grade(1, unit::pennyweight_per_long_ton).in(unit::gram_per_tonne), 1.53061, 5e-6);
}

// Rose p. 49: 22, 18, 15, 12, 9 carat are 916.7, 750, 625, 500, 375 fine.
TEST(PublishedUnits, KaratToFineness) {
  const double printed[][2] = {{22, 916.7}, {18, 750}, {15, 625}, {12, 500}, {9, 375}};
  for (const auto& [karat, fine] : printed) EXPECT_NEAR(Fineness(karat, unit::karat).in(unit::permil), fine, 0.05) << karat;
}

// Johnson, Getting Gold, 2nd ed. 1898, ch. III: 1 grain from 1 pound is 4 oz 13 dwt 8 gr to the long ton.
TEST(PublishedUnits, GrainFromAPound) {
  const double ounces = 4 + 13.0 / 20 + 8.0 / 480;
  EXPECT_NEAR(grade(Mass(1, unit::grain), Mass(1, unit::pound)).in(unit::ounce_per_long_ton), ounces, 1e-9);
}

// Beringer p. 132: milligrams from 100 g to ounces per short ton. The rows 0.5 -> 0.145 and 0.05 -> 0.014 are cut, not
// rounded, in print (0.1458, 0.0146): one unit of the last place is allowed there.
TEST(PublishedUnits, TableForAHundredGrams) {
  const double printed[][3] = {{1, 0.292, 5e-4},  {2, 0.583, 5e-4},   {7, 2.042, 5e-4},
                               {90, 26.25, 5e-4}, {0.5, 0.145, 1e-3}, {0.05, 0.014, 1e-3}};
  for (const auto& [mg, ounces, tolerance] : printed)
    EXPECT_NEAR(grade(Mass(mg, unit::milligram), Mass(100, unit::gram)).in(unit::ounce_per_short_ton), ounces, tolerance) << mg;
}

// Beringer p. 128-129: one grain of 1 mg in 1 kg; the 50 g charge that holds it reads 12.35 dwt per long ton too high, the
// others 0.65 too low. Printed from 0.65 dwt a g/t (exact 0.6533, so 12.41).
TEST(PublishedUnits, OneGrainInAKilogram) {
  const Grade true_grade = grade(Mass(1, unit::milligram), Mass(1, unit::kilogram));
  const Grade caught = grade(Mass(1, unit::milligram), Mass(50, unit::gram));
  EXPECT_NEAR((caught - true_grade).in(unit::pennyweight_per_long_ton), 12.35, 0.07);
  EXPECT_NEAR(true_grade.in(unit::pennyweight_per_long_ton), 0.65, 5e-3);
}

}  // namespace
}  // namespace prillbook
