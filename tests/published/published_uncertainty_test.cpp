// SPDX-License-Identifier: GPL-3.0-or-later
// Uncertainty against the guides. Each check names its source.
#include <gtest/gtest.h>

#include <array>
#include <boost/math/distributions/students_t.hpp>
#include <cmath>

#include "core/assay/grade.h"
#include "core/assay/grain_sampling.h"
#include "core/assay/interval.h"

namespace prillbook {
namespace {

using enum UncertaintySource;

// Student's t, two-sided 95 %: table of the quantiles, from memory.
TEST(PublishedUncertainty, StudentsT) {
  const double table[][2] = {{1, 12.706}, {2, 4.303},  {3, 3.182},  {4, 2.776}, {5, 2.571},
                             {10, 2.228}, {15, 2.131}, {20, 2.086}, {30, 2.042}};
  for (const auto& [dof, t] : table) EXPECT_NEAR(coverage_factor(dof), t, 5e-4) << dof;
  EXPECT_NEAR(coverage_factor(infinite_dof), 1.960, 5e-4);
}

// The quantiles that we take from Boost.Math, against the printed table of Student's t (two-sided 95 %, from memory), and
// t 2.921 at 99 % and 16 degrees of freedom, by which GUM H.1 comes to its expanded uncertainty of 93 nm.
TEST(PublishedUncertainty, StudentsTOfBoost) {
  const double table[][2] = {{6, 2.447}, {7, 2.365}, {8, 2.306}, {9, 2.262}};
  for (const auto& [dof, t] : table) {
    EXPECT_NEAR(quantile(boost::math::students_t(dof), 0.975), t, 5e-4) << dof;
    EXPECT_NEAR(coverage_factor(dof), t, 5e-4) << dof;
  }
  const double t_99 = quantile(boost::math::students_t(16), 0.995);
  EXPECT_NEAR(t_99, 2.921, 5e-4);
  EXPECT_NEAR(t_99 * std::hypot(std::hypot(25, 9.68), std::hypot(2.9, 16.7)), 93, 0.5);
}

// QUAM, table A2.1, the whole of it as relative parts: repeatability 0.0005, mass 0.00013 of 0.3888 g, purity 0.00029, molar
// mass 0.0038 of 204.2212, volume 0.013 of 18.64 ml; combined 0.00097.
TEST(PublishedUncertainty, QuamA2Combined) {
  const std::array<Contribution, 5> parts{normal_part(bead_repeats, 0.0005), normal_part(bead_step, 0.00013 / 0.3888),
                                          normal_part(fineness, 0.00029), normal_part(slag, 0.0038 / 204.2212),
                                          normal_part(portion_step, 0.013 / 18.64)};
  EXPECT_NEAR(combined_u(parts), 0.00097, 5e-6);
}

// Eurachem/CITAC, Quantifying Uncertainty in Analytical Measurement, example A2, table A2.1: purity 1.0 +- 0.0005 gives
// u 0.00029; a difference of two weighings within +- 0.15 mg gives u 0.13 mg (each rounded to 0.09 first; exact 0.122).
TEST(PublishedUncertainty, QuamRectangles) {
  EXPECT_NEAR(rectangle_part(fineness, -0.0005, 0.0005).u, 0.00029, 5e-6);
  GradeInput input;
  input.portion = Mass(1, unit::kilogram);
  input.bead = {Mass(388.8, unit::milligram)};
  input.balance_step = Mass(0.30, unit::milligram);
  input.tared = true;
  const auto result = bead_to_grade(input);
  ASSERT_TRUE(result.ok());
  EXPECT_NEAR(result->bead.spread->u, 0.13, 0.01);
}

// JCGM 100 (GUM) example H.1, inputs as in the metrology package's data set GUM.H.1: components 25 (18), 9.7 (25.6),
// 2.9 (50) and 16.7 nm (2 degrees of freedom): combined 32 nm, effective degrees of freedom 16.
TEST(PublishedUncertainty, GumH1WelchSatterthwaite) {
  const std::array<Contribution, 4> parts{normal_part(bead_step, 25, 18), normal_part(bead_repeats, 9.7, 25.6),
                                          normal_part(portion_step, 2.9, 50), normal_part(fineness, 16.7, 2)};
  EXPECT_NEAR(combined_u(parts), 32, 0.5);
  EXPECT_EQ(effective_dof(parts), 16);
}

// Clifton and others 1969 (USGS Prof. Paper 625-C), as given by Marshall, SMEDG 2002: twenty discs of 177 um, a tenth as
// thick, in 50 g are about 3 ppm; twenty of 30 um are 16 ppb. A disc d by d/10 weighs 0.15 of the sphere of the same d.
TEST(PublishedUncertainty, TwentyGrainsInAPortion) {
  const double disc_of_sphere = 1.5 / 10;
  const auto twenty = [&](double microns, double g_t) {
    return expected_grains(Grade(g_t, unit::gram_per_tonne), Mass(50, unit::gram), Opening(microns, unit::micrometre)) /
           disc_of_sphere;
  };
  EXPECT_NEAR(twenty(177, 3), 20, 2.5);
  EXPECT_NEAR(twenty(30, 0.016), 20, 1);
}

// Beringer, A Text-book of Assaying, 9th ed., p. 135: 0.0183 mm at specific gravity 19.2 is 6.16e-5 mg; three divisions
// (0.055 mm) 0.00166 mg. P. 106: a sphere of 0.01 inch is 0.09 mg of silver; of gold the print gives 0.167 mg, 0.8 % above
// the exact 0.1656.
TEST(PublishedUncertainty, MassOfASphere) {
  const Density printed(19.2, unit::gram_per_cubic_centimetre), silver(10.5, unit::gram_per_cubic_centimetre);
  EXPECT_NEAR(sphere_mass(Opening(18.3, unit::micrometre), printed).in(unit::milligram), 6.16e-5, 2e-7);
  EXPECT_NEAR(sphere_mass(Opening(55, unit::micrometre), printed).in(unit::milligram), 0.00166, 2e-5);
  EXPECT_NEAR(sphere_mass(Opening(254, unit::micrometre), silver).in(unit::milligram), 0.09, 5e-4);
  EXPECT_NEAR(sphere_mass(Opening(254, unit::micrometre)).in(unit::milligram), 0.167, 0.0015);
}

// Leaflet on placer gold of the Washington State survey: "fine" colours pass 0.03 inch, stay on 0.015 inch and go about
// 12 000 to the ounce.
TEST(PublishedUncertainty, FineColours) {
  const Mass colour = Mass(1, unit::troy_ounce) / 12000;
  EXPECT_LT(sphere_mass(Opening(0.015 * 25400, unit::micrometre)), colour);
  EXPECT_GT(sphere_mass(Opening(0.030 * 25400, unit::micrometre)), colour);
}

}  // namespace
}  // namespace prillbook
