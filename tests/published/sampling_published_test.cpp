// SPDX-License-Identifier: GPL-3.0-or-later
// Sampling figures printed outside the project.
#include <gtest/gtest.h>

#include <cmath>

#include "core/preparation/grains.h"
#include "core/preparation/gy.h"
#include "tests/support/masses.h"

namespace prillbook {
namespace {

Opening um(double value) { return {value, unit::micrometre}; }
Grade g_t(double value) { return {value, unit::gram_per_tonne}; }

// Source: Clifton and others 1969, USGS Prof. Paper 625-C, as worked in the Marshall note, SMEDG 2002: a 50 g charge
// holds the wanted 20 particles of 177 µm flake at 3 ppm, of 30 µm gold at 16 ppb. Flakes a tenth as thick as wide.
TEST(PublishedSampling, TwentyParticlesOfClifton) {
  EXPECT_NEAR(grain_count(g_t(3.36), g(50), {um(177), 0.1})->expected, 20, 0.1);
  const double grade_for_20 = 20 / grain_count(g_t(1), g(50), {um(177), 0.1})->expected;
  EXPECT_NEAR(grade_for_20, 3, 0.5) << "printed as a whole number";
  const double fine_for_20 = 20 / grain_count(g_t(1), g(50), {um(30), 0.1})->expected;
  EXPECT_NEAR(fine_for_20 * 1000, 16, 0.5) << "ppb";
  // Twenty particles stand for about ±50 % at 95 %.
  const MeanRange range = poisson_mean_range(20);
  EXPECT_NEAR(range.lo / 20, 0.61, 0.01);
  EXPECT_NEAR(range.hi / 20, 1.54, 0.01);
}

// Source: Harvey, Modern Analytical Chemistry (2000), examples 7.4 and 7.5, p. 187-188: one particle in 1e9 and a
// relative standard deviation of 1 % need 1e13 particles, hence 1e4 of the kind; 80 g instead of 0.6 g is a radius 5.1
// times as large.
TEST(PublishedSampling, BinomialOfHarvey) {
  const double kind = 1e13 * 1e-9;
  const GrainShape grain{um(10), {}};
  const Mass portion = kind * grain_mass(grain) * 1e6;  // at 1 g/t
  EXPECT_NEAR(grain_count(g_t(1), portion, grain)->relative_sd_pct, 1, 1e-3);
  GyInput input{um(51), um(1000), g_t(1), g(1), Share(1, unit::percent), {}};
  input.liberation = um(51);
  const Mass coarse = *gy_error(input)->mass_for_target;
  input.top_size = input.liberation = um(10);
  EXPECT_NEAR(coarse / *gy_error(input)->mass_for_target, 80 / 0.6, 1.0);
}

// Source: Garwood 1936, exact limits for a Poisson mean at 95 %, from memory.
TEST(PublishedSampling, ExactLimitsOfAPoissonMean) {
  struct Printed {
    double count, lo, hi;
  };
  for (const Printed& p :
       {Printed{0, 0, 3.69}, Printed{1, 0.025, 5.57}, Printed{2, 0.24, 7.22}, Printed{3, 0.62, 8.77}, Printed{5, 1.62, 11.67},
        Printed{10, 4.80, 18.39}, Printed{20, 12.22, 30.89}, Printed{50, 37.11, 65.92}}) {
    EXPECT_NEAR(poisson_mean_range(p.count).lo, p.lo, 0.005) << p.count;
    EXPECT_NEAR(poisson_mean_range(p.count).hi, p.hi, 0.005) << p.count;
  }
}

// Source: Bradt, Astronomy Methods, table 6.1: P(0) for means 1, 2, 3 and 4.
TEST(PublishedSampling, ChanceOfNone) {
  const double printed[] = {0.368, 0.135, 0.050, 0.018};
  const GrainShape grain{um(100), {}};
  for (int mean = 1; mean <= 4; ++mean)
    EXPECT_NEAR(grain_count(g_t(1), mean * grain_mass(grain) * 1e6, grain)->none_probability, printed[mean - 1], 0.0005);
}

// From memory: the lead ore of Wills' Mineral Processing Technology. 5 % Pb as galena of 86.6 % Pb and density 7.5 in
// gangue of 2.65, liberated at 150 µm, top size 25 mm, 1 % relative standard deviation: about 177 kg with the liberation
// factor rounded, 3.2 kg at 5 mm. The liberation factor is √(d_l/d), the exponent 2.5 of our form.
TEST(PublishedSampling, LeadOreFromMemory) {
  const double a = 0.05 / 0.866, mineral_factor = (1 - a) / a * ((1 - a) * 7.5 + a * 2.65);
  GyInput input{um(25'000), um(150), g_t(1), g(1), Share(1, unit::percent), {}};
  input.exponent = 2.5;
  input.gold_density = Density(mineral_factor / 1e6, unit::gram_per_cubic_centimetre);  // c = density × 10⁶/grade
  EXPECT_NEAR(gy_error(input)->mass_for_target->in(unit::kilogram), 177, 2);
  input.top_size = um(5'000);
  EXPECT_NEAR(gy_error(input)->mass_for_target->in(unit::kilogram), 3.2, 0.05);
}

}  // namespace
}  // namespace prillbook
