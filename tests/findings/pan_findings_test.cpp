// SPDX-License-Identifier: GPL-3.0-or-later
#include <gmock/gmock.h>

#include "core/findings/finding.h"
#include "tests/support/sieve_bench.h"

namespace prillbook::findings {
namespace {

using testing::Contains;
using testing::HasSubstr;
using testing::Not;
using testing_support::figure;
using testing_support::SieveBench;

struct PanFindings : testing::Test, SieveBench {
  std::vector<Finding> found() { return look({record(), result()}); }
  std::vector<std::string> pan_rules() {
    std::vector<std::string> names;
    for (const Finding& finding : found()) names.push_back(finding.rule);
    return names;
  }
  void write(const history::Field& field, PanTestId test, const std::string& text) {
    ASSERT_TRUE(readings::enter(book, field, test.value, readings::cell_of(std::optional(text))).ok());
  }
  // 1 kg panned with remainder and tail assayed, against 10.8 g/t by fire; the gold closes with a bead of 10 mg.
  void whole_test(const std::string& bead) {
    const PanTestId test = panned("1 kg", "300 um", bead);
    const PortionId portion = gravity::pan_test(*connection, test)->portion;
    const std::pair<const char*, const char*> products[] = {{"remainder", "20 g"}, {"tail", "975 g"}};
    for (const auto& [purpose, mass] : products)
      ASSERT_TRUE(gravity::weigh_product(book, test, purpose, figure(mass), person).ok());
    for (const portions::Portion& one : *portions::portions_of(*connection, sample)) {
      if (one.parent != portion) continue;
      one.purpose == "tail" ? fired(*cut("50 g", "fire", one.id), "0.05 mg") : fired(*cut("10 g", "fire", one.id), "0.5 mg");
    }
    fired(*cut("50 g", "fire"), "0.6 mg");
  }
};

TEST_F(PanFindings, GoldThatClosesIsNoFinding) {
  whole_test("10 mg");
  EXPECT_THAT(pan_rules(), Not(Contains("pan_gold_open")));
}

TEST_F(PanFindings, GoldThatDoesNotClose) {
  whole_test("5 mg");
  ASSERT_THAT(pan_rules(), Contains("pan_gold_open"));
  for (const Finding& finding : found())
    if (finding.rule == "pan_gold_open") EXPECT_THAT(finding.seen, HasSubstr("sampling not judged"));
}

TEST_F(PanFindings, MercuryWithoutANote) {
  const PanTestId test = panned("1 kg", "300 um", "5 mg");
  EXPECT_THAT(pan_rules(), Not(Contains("mercury_not_told")));
  write(history::fields::pan_test::bead_by, test, "amalgamated");
  EXPECT_THAT(pan_rules(), Contains("mercury_not_told"));
  write(history::fields::pan_test::mercury, test, "retorted by a licensed works, mercury kept under water for them");
  EXPECT_THAT(pan_rules(), Not(Contains("mercury_not_told")));
}

TEST_F(PanFindings, CupelledGoldNeedsNoNoteOfMercury) {
  write(history::fields::pan_test::bead_by, panned("1 kg", "300 um", "5 mg"), "cupelled");
  EXPECT_THAT(pan_rules(), Not(Contains("mercury_not_told")));
}

TEST_F(PanFindings, MuchGoldInTheCoarsePartBesideAPlainCharge) {
  const auto made = gravity::start_metallics(
      book, {*cut("400 g", "metallics"), figure("106 um", Measure::opening), figure("1 g"), figure("399 g"), {}, person});
  ASSERT_TRUE(made.ok());
  fired(made->coarse, "0.9 mg");
  fired(*cut("20 g", "fire", made->fine), "0.1 mg");
  EXPECT_THAT(pan_rules(), Not(Contains("metallics_share_high"))) << "no plain charge";
  fired(*cut("30 g", "fire"), "0.3 mg");
  EXPECT_THAT(pan_rules(), Contains("metallics_share_high"));
}

TEST_F(PanFindings, LittleGoldInTheCoarsePartIsNone) {
  const auto made = gravity::start_metallics(book, {*cut("400 g", "metallics"), {}, figure("1 g"), figure("399 g"), {}, person});
  ASSERT_TRUE(made.ok());
  fired(made->coarse, "0.05 mg");
  fired(*cut("20 g", "fire", made->fine), "0.1 mg");
  fired(*cut("30 g", "fire"), "0.15 mg");
  EXPECT_THAT(pan_rules(), Not(Contains("metallics_share_high")));
}

TEST_F(PanFindings, PannedCoarserThanStated) {
  sieved(*cut("100 g", "sieve"), stack({}, "425, 300, 212 µm"), {"10 g", "30 g", "30 g", "30 g"});
  const PanTestId test = panned("1 kg", "150 um", "5 mg");
  ASSERT_THAT(pan_rules(), Contains("panned_coarser"));
  ASSERT_TRUE(gravity::set_grind(book, test, figure("360 um", Measure::opening)).ok());
  EXPECT_THAT(pan_rules(), Not(Contains("panned_coarser")));
}

struct GrindAboveTopSize : PanFindings {
  void milled(PortionId portion, const std::string& top_size) {
    milling::NewStep step;
    step.sample = sample;
    step.portion = portion;
    step.kind = "pulverise";
    step.top_size = figure(top_size, Measure::opening);
    const auto done = milling::do_step(book, step);
    ASSERT_TRUE(done.ok()) << done.error().detail;
  }
};

TEST_F(GrindAboveTopSize, TheGrindOfTheCrusherWhereTheMillWentAfterIt) {
  milled({}, "1 mm");
  milled({}, "300 µm");
  const PanTestId test = panned("1 kg", "500 µm", "5 mg");
  ASSERT_THAT(pan_rules(), Contains("grind_above_top_size"));
  for (const Finding& finding : found())
    if (finding.rule == "grind_above_top_size")
      EXPECT_THAT(finding.seen, HasSubstr("states a grind of 500 µm; the pulverising on")) << finding.seen;
  for (const char* possible : {"300 µm", "310 µm", "200 µm"}) {
    ASSERT_TRUE(gravity::set_grind(book, test, figure(possible, Measure::opening)).ok());
    EXPECT_THAT(pan_rules(), Not(Contains("grind_above_top_size"))) << possible;
  }
  ASSERT_TRUE(gravity::set_grind(book, test, figure("320 µm", Measure::opening)).ok());
  EXPECT_THAT(pan_rules(), Contains("grind_above_top_size"));
}

TEST_F(GrindAboveTopSize, WhatWasMilledAfterThePanOrBesideItSaysNothing) {
  milled({}, "1 mm");
  milled(*cut("600 g", "split"), "150 µm");
  const PanTestId test = panned("1 kg", "500 µm", "5 mg");
  milled({}, "150 µm");
  EXPECT_THAT(pan_rules(), Not(Contains("grind_above_top_size")));
  ASSERT_TRUE(gravity::set_grind(book, test, figure("1.2 mm", Measure::opening)).ok());
  EXPECT_THAT(pan_rules(), Contains("grind_above_top_size"));
  ASSERT_TRUE(gravity::set_spoiled(book, test, "spilt").ok());
  EXPECT_THAT(pan_rules(), Not(Contains("grind_above_top_size")));
}

}  // namespace
}  // namespace prillbook::findings
