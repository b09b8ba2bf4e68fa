// SPDX-License-Identifier: GPL-3.0-or-later
#include <fmt/format.h>
#include <gmock/gmock.h>

#include "core/findings/finding.h"
#include "tests/support/sieve_bench.h"

namespace prillbook::findings {
namespace {

using testing::Contains;
using testing::ElementsAre;
using testing::HasSubstr;
using testing::IsEmpty;
using testing::Not;
using testing_support::figure;
using testing_support::SieveBench;

struct SieveFindings : testing::Test, SieveBench {
  void shaken(const std::string& portion, const std::string& words, const std::vector<std::string>& masses) {
    sieved(*cut(portion, "sieve"), stack({}, words), masses);
  }
  std::vector<Finding> found() { return look({record(), result()}); }
  std::vector<std::string> rules_found() {
    std::vector<std::string> names;
    for (const Finding& finding : found()) names.push_back(finding.rule);
    return names;
  }
};

TEST_F(SieveFindings, ACleanAnalysisIsNoFinding) {
  shaken("100 g", "40, 60, 100 ASTM", {"10 g", "30 g", "29.9 g", "29.9 g"});
  EXPECT_THAT(rules_found(), IsEmpty());
}

TEST_F(SieveFindings, WhatIsNotWeighedYetIsNoFinding) {
  shaken("100 g", "40, 60, 100 ASTM", {"10 g", "", "", ""});
  EXPECT_THAT(rules_found(), IsEmpty());
}

// ASTM C136: within 0.3 % of the mass before.
TEST_F(SieveFindings, LossBeyondTheLimit) {
  shaken("100 g", "40, 60, 100 ASTM", {"10 g", "30 g", "29.6 g", "30 g"});
  EXPECT_THAT(rules_found(), ElementsAre("sieve_loss"));
  EXPECT_THAT(found()[0].seen, HasSubstr("0.40 %"));
}

TEST_F(SieveFindings, ALimitOfTheLabsOwn) {
  ASSERT_TRUE(lab::set_setting(book, "sieve.loss_limit_pct", "1").ok());
  shaken("100 g", "40, 60, 100 ASTM", {"10 g", "30 g", "29.6 g", "30 g"});
  EXPECT_THAT(rules_found(), IsEmpty());
}

TEST_F(SieveFindings, ASumAboveThePortion) {
  shaken("100 g", "40, 60, 100 ASTM", {"10 g", "30 g", "31 g", "30 g"});
  ASSERT_THAT(rules_found(), ElementsAre("sieve_sum_above_portion"));
  EXPECT_EQ(found()[0].severity, Severity::caution);
}

TEST_F(SieveFindings, ASumFarAboveThePortionStops) {
  shaken("100 g", "40, 60, 100 ASTM", {"10 g", "30 g", "41 g", "30 g"});
  ASSERT_THAT(rules_found(), ElementsAre("sieve_sum_above_portion"));
  EXPECT_EQ(found()[0].severity, Severity::stop);
}

TEST_F(SieveFindings, AnOverloadedSieve) {
  shaken("600 g", "40, 60, 100 ASTM", {"50 g", "201 g", "199 g", "150 g"});
  ASSERT_THAT(rules_found(), ElementsAre("sieve_overload"));
  EXPECT_THAT(found()[0].seen, HasSubstr("201 g lay on 250 µm"));
}

TEST_F(SieveFindings, P80OutsideTheStackNamesSizesThatHelp) {
  shaken("100 g", "60, 100 ASTM", {"30 g", "30 g", "40 g"});
  ASSERT_THAT(rules_found(), ElementsAre("sieve_p80"));
  EXPECT_EQ(found()[0].severity, Severity::caution);
  EXPECT_THAT(found()[0].to_do, HasSubstr("355 µm and 500 µm"));
}

TEST_F(SieveFindings, OpeningsFarApartAroundP80) {
  shaken("100 g", "20, 60, 100 ASTM", {"1 g", "47 g", "21 g", "31 g"});
  ASSERT_THAT(rules_found(), ElementsAre("sieve_p80"));
  EXPECT_EQ(found()[0].severity, Severity::note);
  EXPECT_THAT(found()[0].seen, HasSubstr("3.4 times"));
}

TEST_F(SieveFindings, OpeningsFarApartElsewhereAreNoFinding) {
  shaken("100 g", "425, 250, 75 µm", {"10 g", "30 g", "30 g", "30 g"});
  EXPECT_THAT(rules_found(), IsEmpty());
}

TEST_F(SieveFindings, TwoSeriesInOneStack) {
  shaken("100 g", "40 ASTM, 60 Tyler, 100 ASTM", {"10 g", "30 g", "30 g", "30 g"});
  ASSERT_THAT(rules_found(), ElementsAre("sieve_mixed_series"));
  EXPECT_THAT(found()[0].seen, HasSubstr("ASTM E11 and Tyler"));
}

TEST_F(SieveFindings, TwoMassesThatMayHaveChangedPlaces) {
  shaken("100 g", "40, 50, 70, 100, 140, 200 ASTM", {"0.1 g", "0.5 g", "3 g", "11 g", "8 g", "18 g", "59.3 g"});
  ASSERT_THAT(rules_found(), ElementsAre("sieve_uneven"));
  EXPECT_THAT(found()[0].seen, HasSubstr("11 g on 150 µm and 8 g on 106 µm"));
}

TEST_F(SieveFindings, ASmallDipIsNoExchange) {
  shaken("100 g", "40, 50, 70, 100, 140, 200 ASTM", {"0.1 g", "0.5 g", "3 g", "9.1 g", "8.9 g", "18 g", "60.3 g"});
  EXPECT_THAT(rules_found(), IsEmpty());
}

TEST_F(SieveFindings, ASieveThatWasPassedOver) {
  shaken("100 g", "40, 60, 100 ASTM", {"10 g", "", "29.9 g", "29.9 g"});
  ASSERT_THAT(rules_found(), ElementsAre("sieve_not_weighed"));
  EXPECT_THAT(found()[0].seen,
              HasSubstr("Nothing is written for 250 µm of 26-0001/1, though the pan is weighed. 30.2 g is wanting"));
}

TEST_F(SieveFindings, ASieveThatHeldNothingByTheSum) {
  shaken("100 g", "40, 60, 100 ASTM", {"", "40 g", "30 g", "29.9 g"});
  ASSERT_THAT(rules_found(), ElementsAre("sieve_not_weighed"));
  EXPECT_THAT(found()[0].seen, HasSubstr("Nothing is wanting to the portion."));
}

TEST_F(SieveFindings, ASieveThatHeldNoneIsWeighed) {
  shaken("100 g", "40, 60, 100 ASTM", {"none", "30 g", "40 g", "29.9 g"});
  EXPECT_THAT(rules_found(), IsEmpty());
}

// From above, from the pan upwards, and with the pan alone: somebody is at it.
TEST_F(SieveFindings, WhoeverStillWeighsIsLeftAlone) {
  const std::vector<std::string> halfway[] = {
      {"10 g", "30 g", "29.9 g", ""}, {"10 g", "", "29.9 g", ""}, {"", "", "29.9 g", "29.9 g"}, {"", "", "", "29.9 g"}};
  const SieveStackId three = stack({}, "40, 60, 100 ASTM");
  for (const auto& masses : halfway) {
    another("bag " + fmt::format("{}", fmt::join(masses, ", ")));
    sieved(*cut("100 g", "sieve"), three, masses);
    EXPECT_THAT(rules_found(), IsEmpty()) << masses[0] << ", " << masses[1] << ", " << masses[2] << ", " << masses[3];
  }
}

struct MoistureNotFound : SieveFindings {
  void moisture(const std::string& typed) {
    ASSERT_TRUE(readings::enter(book, history::fields::sample::moisture, sample.value,
                                readings::cell_of(readings::Figure{figure(typed, Measure::share)}))
                    .ok());
  }
  void dry(PortionId portion, const std::string& in, const std::string& out) {
    milling::NewStep step;
    step.sample = sample;
    step.portion = portion;
    step.kind = "dry";
    step.mass_in = figure(in);
    step.mass_out = figure(out);
    ASSERT_TRUE(milling::do_step(book, step).ok());
  }
  const std::vector<std::string> no_water_lost{"10 g", "30 g", "30 g", "29.9 g"};
};

TEST_F(MoistureNotFound, RockThatCountsAsDampAndLostNothing) {
  shaken("100 g", "40, 60, 100 ASTM", no_water_lost);
  EXPECT_THAT(rules_found(), IsEmpty());
  moisture("6.4 %");
  ASSERT_THAT(rules_found(), ElementsAre("moisture_not_found"));
  EXPECT_EQ(found()[0].seen,
            "6.4 % is taken off as moisture and no drying is written; yet 26-0001/1 lost only 0.10 % from bag to sieves.");
}

// By default one per cent apart.
TEST_F(MoistureNotFound, ALittleMoistureIsLetPass) {
  shaken("100 g", "40, 60, 100 ASTM", no_water_lost);
  moisture("1.0 %");
  EXPECT_THAT(rules_found(), IsEmpty());
  moisture("1.2 %");
  EXPECT_THAT(rules_found(), ElementsAre("moisture_not_found"));
}

TEST_F(MoistureNotFound, RockThatWasDriedBeforeItWasCut) {
  moisture("6.4 %");
  dry({}, "4.000 kg", "3.744 kg");
  shaken("100 g", "40, 60, 100 ASTM", no_water_lost);
  EXPECT_THAT(rules_found(), IsEmpty());
}

TEST_F(MoistureNotFound, ADampPortionThatLostItsWater) {
  moisture("6.4 %");
  shaken("100 g", "40, 60, 100 ASTM", {"10 g", "30 g", "30 g", "23.6 g"});
  EXPECT_THAT(rules_found(), Not(Contains("moisture_not_found")));
}

TEST_F(MoistureNotFound, CoarseRockMayGoThroughTheSievesDamp) {
  moisture("6.4 %");
  shaken("100 g", "8, 4, 2 mm", no_water_lost);
  EXPECT_THAT(rules_found(), Not(Contains("moisture_not_found")));
}

TEST_F(MoistureNotFound, ATailIsDriedAfterThePan) {
  moisture("6.4 %");
  const PanTestId test = panned("1 kg", "300 um", "5 mg");
  ASSERT_TRUE(gravity::weigh_product(book, test, "tail", figure("930 g"), person).ok());
  const auto portions = *portions::portions_of(*connection, sample);
  sieved(*cut("100 g", "sieve", portions.back().id), stack({}, "40, 60, 100 ASTM"), no_water_lost);
  EXPECT_THAT(rules_found(), Not(Contains("moisture_not_found")));
}

TEST_F(SieveFindings, ASieveWithoutASeriesMixesWithAny) {
  shaken("100 g", "40 ASTM, 250 µm, 100 ASTM", {"10 g", "30 g", "30 g", "30 g"});
  EXPECT_THAT(rules_found(), ElementsAre());
}

TEST_F(SieveFindings, ASievePastItsInspection) {
  shaken("100 g", "40, 60, 100 ASTM", {"10 g", "30 g", "30 g", "30 g"});
  const auto held = *sieves::sieves(*connection);
  const auto due = [&](std::size_t place, const char* when) {
    ASSERT_TRUE(readings::enter(book, history::fields::sieve::inspect_by, held[place].id.value, std::string(when)).ok());
  };
  due(0, "2026-06-01T12:00:00.000+02:00");
  EXPECT_THAT(rules_found(), IsEmpty()) << "the notebook's day is 4 May 2026";
  due(1, "2026-05-01T12:00:00.000+02:00");
  ASSERT_THAT(rules_found(), ElementsAre("sieve_overdue"));
  EXPECT_THAT(found()[0].seen, HasSubstr("250 µm"));
}

TEST_F(SieveFindings, ASieveThatFellDueWhileAnAnalysisIsUnderWay) {
  shaken("100 g", "40, 60, 100 ASTM", {"10 g", "30 g", "", ""});
  const auto held = *sieves::sieves(*connection);
  ASSERT_TRUE(
      readings::enter(book, history::fields::sieve::inspect_by, held[0].id.value, std::string("2026-05-10T12:00:00.000+02:00"))
          .ok());
  const auto rules_at = [&](const char* when) {
    std::vector<std::string> names;
    for (const Finding& finding : look({record(), result()}, *parse_iso(when))) names.push_back(finding.rule);
    return names;
  };
  EXPECT_THAT(rules_at("2026-05-09T12:00:00.000+02:00"), IsEmpty());
  EXPECT_THAT(rules_at("2026-05-11T12:00:00.000+02:00"), ElementsAre("sieve_due"));
  EXPECT_THAT(rules_found(), IsEmpty()) << "without a day nothing is said of today";
}

TEST_F(SieveFindings, ASpoiledAnalysisSaysNothing) {
  const auto id = sieved(*cut("100 g", "sieve"), stack({}, "60, 100 ASTM"), {"30 g", "30 g", "39 g"});
  EXPECT_THAT(rules_found(), ElementsAre("sieve_loss", "sieve_p80"));
  ASSERT_TRUE(readings::enter(book, history::fields::sieve_analysis::spoiled, id.value, std::string("spilled")).ok());
  EXPECT_THAT(rules_found(), IsEmpty());
}

}  // namespace
}  // namespace prillbook::findings
