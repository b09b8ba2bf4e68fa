// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/results/size_result.h"

#include <gmock/gmock.h>

#include "core/units/units.h"
#include "tests/support/sieve_bench.h"

namespace prillbook::results {
namespace {

using testing::ElementsAre;
using testing_support::figure;
using testing_support::SieveBench;

struct SizeResultTest : testing::Test, SieveBench {};

TEST_F(SizeResultTest, ACurveFromTheRecords) {
  sieved(*cut("100 g", "sieve"), stack("s", "850, 425, 250, 150 µm"), {"1 g", "24 g", "23 g", "21 g", "31 g"});
  const SampleResult r = result();
  ASSERT_EQ(r.sizes.size(), 1u);
  const SizeResult& size = r.sizes[0];
  EXPECT_EQ(size.state, SizeState::done);
  EXPECT_EQ(size.label, "26-0001/1");
  ASSERT_TRUE(size.curve);
  EXPECT_NEAR(size.curve->rows[1].passing_pct, 75, 1e-9);
  EXPECT_EQ(size.loss_limit_pct, 0.3);
  ASSERT_TRUE(size.rosin_rammler);
  EXPECT_EQ(size.rosin_rammler->law.points, 4);
  EXPECT_TRUE(size.metal.empty());
}

TEST_F(SizeResultTest, WaitsForWhatIsNotWeighedAndDrawsWhatIs) {
  sieved(*cut("100 g", "sieve"), stack("s", "850, 250 µm"), {"1 g", "47 g", ""});
  const SampleRecord held = record();
  const SizeResult size = compute(held).sizes[0];
  EXPECT_EQ(size.state, SizeState::waiting);
  EXPECT_THAT(size.waits_for, ElementsAre("the pan"));
  EXPECT_FALSE(size.curve) << "a pan that was not weighed is not 0";
  const auto rows = rows_so_far(held, held.sieve_analyses[0]);
  ASSERT_EQ(rows.size(), 2u);
  EXPECT_NEAR(rows[1].passing_pct, 52, 1e-9);
}

TEST_F(SizeResultTest, RefusesMassesThatContradictEachOther) {
  sieved(*cut("100 g", "sieve"), stack("s", "850, 250 µm"), {"30 g", "47 g", "31 g"});
  const SizeResult size = result().sizes[0];
  EXPECT_EQ(size.state, SizeState::refused);
  EXPECT_EQ(size.error->code, ErrorCode::inconsistent);
}

TEST_F(SizeResultTest, ASpoiledAnalysisKeepsItsReason) {
  const auto id = sieved(*cut("100 g", "sieve"), stack("s", "850 µm"), {"30 g", "70 g"});
  ASSERT_TRUE(readings::enter(book, history::fields::sieve_analysis::spoiled, id.value, std::string("lid came off")).ok());
  EXPECT_EQ(result().sizes[0].state, SizeState::spoiled);
  EXPECT_EQ(result().sizes[0].reason, "lid came off");
}

// ASTM C136 8.3: an 8-inch sieve finer than 4.75 mm carries 200 g.
TEST_F(SizeResultTest, OverloadTakesTheDiameterOfTheSieveElseTheUsualOne) {
  const PortionId portion = *cut("600 g", "sieve");
  const auto two = stack("s", "850, 250 µm");
  const auto& sieves_held = *sieves::sieves(*connection);
  ASSERT_TRUE(readings::enter(book, history::fields::sieve::diameter, sieves_held[1].id.value,
                              readings::cell_of(readings::Figure{figure("304.8 mm", Measure::opening)}))
                  .ok());
  sieved(portion, two, {"250 g", "250 g", "100 g"});
  const SizeResult size = result().sizes[0];
  ASSERT_EQ(size.overloads.size(), 1u) << "the 12-inch sieve carries 469 g";
  EXPECT_NEAR(size.overloads[0].limit.in(unit::gram), 200, 1);
  EXPECT_DOUBLE_EQ(size.overloads[0].opening.in(unit::micrometre), 850);
}

TEST_F(SizeResultTest, GoldBySizeComesFromItsFractions) {
  const PortionId portion = *cut("100 g", "sieve");
  const auto id = sieved(portion, stack("s", "250, 150 µm"), {"50 g", "20 g", "30 g"});
  const auto fractions = *sieves::make_fractions(book, id, person);
  // 0.9 × bead: 18 g/t in 50 g, 90 g/t in 20 g.
  fired(fractions[0], "1 mg");
  SizeResult size = result().sizes[0];
  EXPECT_FALSE(size.metal_complete);
  EXPECT_FALSE(size.richest);
  fired(*cut("20 g", "fire", fractions[1]), "2 mg");
  fired(*cut("15 g", "fire", fractions[2]), "0.1 mg");
  const SampleResult r = result();
  size = r.sizes[0];
  ASSERT_TRUE(size.metal_complete);
  EXPECT_EQ(size.metal[0].size, "+250 µm");
  EXPECT_NEAR(size.metal[0].gold->g_t(), 18, 1e-9);
  EXPECT_NEAR(size.metal[1].gold->g_t(), 90, 1e-9);
  EXPECT_NEAR(size.metal[2].gold->g_t(), 6, 1e-9);
  // 50·18 + 20·90 + 30·6 = 2880; 1800 of it on 150 µm.
  EXPECT_EQ(size.richest, 1u);
  EXPECT_NEAR(*size.metal[1].gold_pct, 62.5, 1e-9);
  EXPECT_NEAR(size.built_up->in(unit::gram_per_tonne), 28.8, 1e-9);
  EXPECT_EQ(r.of_fractions.size(), 3u);
  EXPECT_TRUE(r.fire.tests.empty()) << "a size is not the rock as received";
}

TEST_F(SizeResultTest, SizesThatWouldHelp) {
  const auto help = [&](const std::string& words, const std::vector<std::string>& masses) {
    sieved(*cut("100 g", "sieve"), stack(words, words), masses);
    const SampleRecord held = record();
    std::vector<double> um;
    for (const Opening size : sizes_that_would_help(held.sieve_analyses.back(), *compute(held).sizes.back().curve))
      um.push_back(size.in(unit::micrometre));
    return um;
  };
  EXPECT_THAT(help("60, 100 ASTM", {"30 g", "30 g", "40 g"}), ElementsAre(355, 500));
  EXPECT_THAT(help("100, 200 ASTM", {"5 g", "5 g", "90 g"}), ElementsAre(53, 38));
  EXPECT_THAT(help("20, 60 ASTM", {"1 g", "47 g", "52 g"}), ElementsAre(710, 600, 500, 425, 355, 300));
  EXPECT_THAT(help("40, 60 ASTM", {"10 g", "20 g", "70 g"}), ElementsAre());
}

struct GrindStudyTest : testing::Test, SieveBench {};

TEST_F(GrindStudyTest, AFinerGrindThatCaughtMore) {
  panned("1 kg", "600 µm", "10 mg");
  panned("1 kg", "150 µm", "16 mg");
  fired(*cut("100 g", "fire"), "2 mg");
  const GrindStudy study = result().grinds;
  ASSERT_EQ(study.points.size(), 2u);
  EXPECT_DOUBLE_EQ(study.points[0].p80.in(unit::micrometre), 600) << "coarse first";
  EXPECT_NEAR(*study.points[0].recovery, 0.5, 1e-9);
  EXPECT_NEAR(*study.points[1].recovery, 0.8, 1e-9);
  ASSERT_TRUE(study.points[1].interval);
  EXPECT_LT(study.points[1].interval->lo, 0.8);
  ASSERT_EQ(study.steps.size(), 1u);
  EXPECT_NEAR(study.steps[0].gain.in(unit::gram_per_tonne), 5.4, 1e-9);
  EXPECT_EQ(study.steps[0].verdict, GrindVerdict::more);
  EXPECT_EQ(study.steps[0].basis, VerdictBasis::weighing);
  EXPECT_GT(study.steps[0].lo->in(unit::gram_per_tonne), 0);
}

TEST_F(GrindStudyTest, ADifferenceWithinTheDoubtIsNotShown) {
  panned("1 kg", "600 µm", "10 mg", "50");
  panned("1 kg", "150 µm", "10.3 mg", "50");
  EXPECT_EQ(result().grinds.steps.at(0).verdict, GrindVerdict::not_shown);
}

TEST_F(GrindStudyTest, AFinerGrindThatCaughtLess) {
  panned("1 kg", "600 µm", "16 mg");
  panned("1 kg", "150 µm", "10 mg");
  EXPECT_EQ(result().grinds.steps.at(0).verdict, GrindVerdict::less);
  EXPECT_FALSE(result().grinds.points[0].recovery) << "without a fire assay there is no share to give";
}

TEST_F(GrindStudyTest, CoarseGoldWidensTheDoubt) {
  panned("1 kg", "600 µm", "10 mg", "1", "500 µm");
  panned("1 kg", "150 µm", "16 mg", "1");
  const GrindStep step = result().grinds.steps.at(0);
  EXPECT_EQ(step.basis, VerdictBasis::weighing_and_sampling);
  EXPECT_EQ(step.verdict, GrindVerdict::not_shown) << "a grain of 500 µm weighs 1.3 mg; a kilogram holds about ten";
}

TEST_F(GrindStudyTest, ThreeGrindsAreAlsoComparedOverAll) {
  for (const auto& [grind, bead] : {std::pair("600 µm", "10 mg"), std::pair("150 µm", "16 mg"), std::pair("300 µm", "13 mg")})
    panned("500 g", grind, bead);
  const GrindStudy study = result().grinds;
  ASSERT_EQ(study.steps.size(), 3u);
  EXPECT_EQ(study.steps[2].coarse, 0u);
  EXPECT_EQ(study.steps[2].fine, 2u);
  EXPECT_NEAR(study.steps[2].gain.in(unit::gram_per_tonne), 10.8, 1e-9);
}

TEST_F(GrindStudyTest, ATestWithoutItsGrindIsLeftOut) {
  panned("1 kg", "600 µm", "10 mg");
  const auto started = gravity::start_pan_test(book, {*cut("1 kg", "pan"), {}, person, {}});
  weigh(started->bead, "10 mg", "1");
  EXPECT_EQ(result().grinds.points.size(), 1u);
  EXPECT_TRUE(result().grinds.steps.empty());
}

}  // namespace
}  // namespace prillbook::results
