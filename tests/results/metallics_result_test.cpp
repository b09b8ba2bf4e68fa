// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/results/metallics_result.h"

#include <gmock/gmock.h>

#include "core/units/units.h"
#include "tests/support/sieve_bench.h"

namespace prillbook::results {
namespace {

using testing::ElementsAre;
using testing_support::figure;
using testing_support::SieveBench;

struct MetallicsResults : testing::Test, SieveBench {
  gravity::Metallics screened(const std::string& portion, const std::string& coarse, const std::string& fine) {
    const auto made = gravity::start_metallics(
        book, {*cut(portion, "metallics"), figure("106 um", Measure::opening), figure(coarse), figure(fine), {}, person});
    EXPECT_TRUE(made.ok());
    return *made;
  }
  MetallicsOf of() { return result().metallics.at(0); }
};

TEST_F(MetallicsResults, WaitsForBothParts) {
  const auto made = screened("400 g", "1 g", "399 g");
  EXPECT_THAT(of().waits_for, ElementsAre("an assay of the whole coarse part", "an assay of the fine part"));
  fired(made.coarse, "0.842 g");
  EXPECT_THAT(of().waits_for, ElementsAre("an assay of the fine part"));
  EXPECT_EQ(of().state, MetallicsState::waiting);
}

TEST_F(MetallicsResults, HalfOfTheCoarsePartIsNotTheWhole) {
  const auto made = screened("400 g", "1 g", "399 g");
  fired(*cut("0.5 g", "fire", made.coarse), "10 mg");
  fired(*cut("20 g", "fire", made.fine), "5 mg");
  EXPECT_THAT(of().waits_for, ElementsAre("an assay of the whole coarse part"));
}

// Beringer, A Text-book of Assaying, 9th ed., p. 108-109: 1 g of metallics gave 0.842 g, 20 g of the sifted 399 g gave
// 0.1050 g: 0.7342 % of 400 g. Silver in print; here the beads stand for the metal and are called gold at 900 ‰, so that the
// figure is nine tenths of the printed one.
TEST_F(MetallicsResults, APrintedExampleThroughTheRecords) {
  const auto made = screened("400 g", "1 g", "399 g");
  fired(made.coarse, "0.842 g");
  fired(*cut("20 g", "fire", made.fine), "0.1050 g");
  const MetallicsOf held = of();
  ASSERT_EQ(held.state, MetallicsState::done);
  EXPECT_NEAR(held.gold->g_t() / 0.9, 7342, 1);
  EXPECT_NEAR(*held.result->coarse_share, 84.2 / 293.675, 1e-4);
}

TEST_F(MetallicsResults, FineDuplicatesBringTheirScatter) {
  const auto made = screened("1 kg", "18 g", "980 g");
  fired(made.coarse, "6 mg");
  fired(*cut("30 g", "fire", made.fine), "0.12 mg");
  const auto one = of().gold;
  fired(*cut("30 g", "fire", made.fine), "0.16 mg");
  const MetallicsOf held = of();
  EXPECT_EQ(held.fine_charges, 2);
  ASSERT_TRUE(held.gold->spread && one->spread);
  EXPECT_GT(held.gold->spread->u, one->spread->u);
  EXPECT_GE(held.gold->spread->u, held.result->u->in(unit::gram_per_tonne));
}

TEST_F(MetallicsResults, PlainChargesStandApart) {
  const auto made = screened("400 g", "1 g", "399 g");
  fired(made.coarse, "0.9 mg");
  fired(*cut("20 g", "fire", made.fine), "0.1 mg");
  fired(*cut("30 g", "fire"), "0.3 mg");
  EXPECT_EQ(result().fire.tests.size(), 1u);
}

}  // namespace
}  // namespace prillbook::results
