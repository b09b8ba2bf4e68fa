// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/assay/monte_carlo.h"

#include <gtest/gtest.h>

#include <cmath>

#include "core/assay/compare_draws.h"

namespace prillbook {
namespace {

constexpr auto source = UncertaintySource::bead_repeats;

Drawn one(std::vector<Contribution> parts, DrawOptions options = {}) {
  return (*draw<1>(
      parts,
      [](std::span<const double> offsets) {
        double sum = 0;
        for (const double offset : offsets) sum += offset;
        return std::array{sum};
      },
      options))[0];
}

TEST(MonteCarlo, ANormalPartHasItsOwnInterval) {
  const Drawn drawn = one({normal_part(source, 2)});
  EXPECT_NEAR(drawn.mean, 0, 0.02);
  EXPECT_NEAR(drawn.sd, 2, 0.02);
  EXPECT_NEAR(*drawn.lo, -3.92, 0.04);
  EXPECT_NEAR(*drawn.hi, 3.92, 0.04);
}

// Student's t at 0.975 and 4 degrees of freedom: 2.776 (any printed t table).
TEST(MonteCarlo, FewDegreesOfFreedomWidenTheTails) { EXPECT_NEAR(*one({normal_part(source, 1, 4)}).hi, 2.776, 0.05); }

TEST(MonteCarlo, ARectangleStaysInsideItsEnds) {
  const Drawn drawn = one({rectangle_part(source, -1, 3)});
  EXPECT_NEAR(drawn.mean, 1, 0.02);
  EXPECT_NEAR(*drawn.lo, -1 + 0.025 * 4, 0.01);
  EXPECT_NEAR(*drawn.hi, 3 - 0.025 * 4, 0.01);
}

TEST(MonteCarlo, TheSameSeedGivesTheSameFigures) {
  const std::vector parts{normal_part(source, 1), rectangle_part(source, -1, 1), normal_part(source, 1, 5)};
  const Drawn first = one(parts, {5000, 7, nullptr, {}}), again = one(parts, {5000, 7, nullptr, {}});
  EXPECT_EQ(first.mean, again.mean);
  EXPECT_EQ(first.lo, again.lo);
  EXPECT_NE(first.mean, one(parts, {5000, 8, nullptr, {}}).mean);
}

TEST(MonteCarlo, CanBeStoppedAndTellsWhereItIs) {
  Cancellation stop;
  long seen = 0;
  DrawOptions options{1'000'000, 1, &stop, [&](long done, long total) {
                        EXPECT_EQ(total, 1'000'000);
                        seen = done;
                        if (done > 100'000) stop.request();
                      }};
  const auto drawn = draw<1>(
      std::vector{normal_part(source, 1)}, [](std::span<const double> offsets) { return std::array{offsets[0]}; }, options);
  ASSERT_FALSE(drawn.ok());
  EXPECT_EQ(drawn.error().code, ErrorCode::cancelled);
  EXPECT_LT(seen, 200'000);
  EXPECT_EQ(check_draws({10, 1, nullptr, {}}).error().code, ErrorCode::out_of_range);
}

TEST(MonteCarlo, ARatioOverNothingHasNoUpperEnd) {
  const auto drawn = draw<1>(std::vector{normal_part(source, 1), normal_part(source, 1)},
                             [](std::span<const double> offsets) {
                               const double below = std::max(0.0, 1 + offsets[1]);
                               return std::array{below > 0 ? (2 + offsets[0]) / below : std::numeric_limits<double>::infinity()};
                             },
                             {20'000, 1, nullptr, {}});
  EXPECT_TRUE((*drawn)[0].lo);
  EXPECT_FALSE((*drawn)[0].hi) << "one draw in six has nothing below the line";
}

Comparison compared(double pan, std::vector<Contribution> pan_parts, double fire, std::vector<Contribution> fire_parts) {
  const auto side = [](double g_t, std::vector<Contribution> parts) {
    CompareSide one;
    one.gold = measured(Grade(g_t, unit::gram_per_tonne), std::move(parts));
    one.fineness_known = true;
    one.portion = Mass(100, unit::gram);
    return one;
  };
  return *compare_pan_with_fire({side(pan, std::move(pan_parts)), side(fire, std::move(fire_parts)), {}, {}});
}

TEST(DrawnComparisonTest, AgreesWithTheFirstOrderWherePartsAreNormal) {
  const Comparison first = compared(20, {normal_part(source, 1)}, 30, {normal_part(source, 1.5)});
  const auto drawn = draw_comparison(first, {200'000, 3, nullptr, {}});
  ASSERT_TRUE(drawn.ok());
  ASSERT_TRUE(drawn->gap_agreement && drawn->recovery_agreement);
  EXPECT_TRUE(drawn->gap_agreement->holds()) << drawn->gap_agreement->low_off << " " << drawn->gap_agreement->high_off;
  EXPECT_NEAR(drawn->gap.sd, std::hypot(1, 1.5), 0.01);
  EXPECT_GT(drawn->left_behind_share, 0.999);
  EXPECT_EQ(drawn->seed, 3u);
}

// With two and three degrees of freedom the factor of Welch and Satterthwaite is an approximation only.
TEST(DrawnComparisonTest, SaysWhereTheFirstOrderDoesNotHold) {
  const Comparison first = compared(3, {normal_part(source, 1, 2)}, 4, {normal_part(source, 1, 3)});
  const auto drawn = draw_comparison(first, {200'000, 3, nullptr, {}});
  ASSERT_TRUE(drawn->gap_agreement);
  EXPECT_FALSE(drawn->gap_agreement->holds());
}

TEST(DrawnComparisonTest, NeedsAnUncertaintyOnBothSides) {
  EXPECT_EQ(draw_comparison(compared(3, {}, 4, {normal_part(source, 1)}), {}).error().code, ErrorCode::missing_key);
}

}  // namespace
}  // namespace prillbook
