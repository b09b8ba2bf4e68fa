// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/summary/summary.h"

#include <gtest/gtest.h>

#include "core/summary/lines.h"
#include "tests/support/summary_bench.h"

namespace prillbook::summary {
namespace {

using ::testing::HasSubstr;
using ::testing::Not;
using testing_support::SummaryBench;
using testing_support::words_of;

struct SummaryTest : ::testing::Test, SummaryBench {
  std::string words() { return words_of(report()); }
  const ResultLine& line(const Report& report, LineKind kind) {
    for (const ResultLine& line : report.lines)
      if (line.kind == kind) return line;
    ADD_FAILURE() << "no such line";
    return report.lines.front();
  }
};

// Common practice, no source: 22 mg in 1 kg at 750 ‰ are 16.5 g/t; 9 mg in 100 g at 500 ‰ are 45 g/t; the pan caught 37 %.
// NIST SP 811, appendix B.8: 45 g/t are 45 x 7/240 = 1.3125 troy ounces in a short ton.
TEST_F(SummaryTest, PanAndFireWithAGap) {
  pan_with_gap();
  const std::string text = words();
  EXPECT_THAT(text, HasSubstr("Gold in the rock, by fire assay of one portion: 45.0"));
  EXPECT_THAT(text, HasSubstr("1.3125"));
  EXPECT_THAT(text, HasSubstr("troy oz per short ton"));
  EXPECT_THAT(text, HasSubstr("Silver, by difference"));
  EXPECT_THAT(
      text, HasSubstr("The pan caught 36.7 % (95 % interval 35.3 to 38.1 %) of the gold that fire assay found: 16.5 ± 0.6 g/t"));
  EXPECT_THAT(
      text,
      HasSubstr("The pan left gold behind: fire assay found 28.5 ± 0.6 g/t more than the pan caught; sampling not judged."));
  EXPECT_THAT(text, HasSubstr("A fire assay of the concentrate remainder and the tail would tell which."));
  EXPECT_THAT(text, HasSubstr("Touchstone: "));
  EXPECT_THAT(text, HasSubstr("Parted: "));
  EXPECT_THAT(text, Not(HasSubstr("Density: ")));
}

TEST_F(SummaryTest, APanJobReadsWithoutAFurnace) {
  const Panned panned = pan("1 kg");
  weigh(panned.bead, "22.000 mg");
  touchstone(panned.bead, "750");
  const std::string text = words();
  EXPECT_THAT(text, HasSubstr("Gold that the pan caught, per tonne of rock panned: 16.5 ± 0.6 g/t"));
  EXPECT_THAT(text, HasSubstr("# What the pan caught\n"));
  for (const char* word : {"fire assay", "Fire assay", "crucible", "flux", "reagents"}) EXPECT_THAT(text, Not(HasSubstr(word)));
  EXPECT_THAT(text, Not(HasSubstr("Collector")));
}

TEST_F(SummaryTest, NoneSeenIsALimitAndNeverZero) {
  const auto charge = fire("30 g");
  ASSERT_TRUE(weighing::set_none_seen(book, charge.bead, true).ok());
  const std::string text = words();
  EXPECT_THAT(text, HasSubstr("none seen. If there is any, it is less than "));
  EXPECT_THAT(text, HasSubstr("no bead was seen, so no silver either"));
  EXPECT_THAT(text, Not(HasSubstr("0 ± 0")));
  EXPECT_THAT(text, Not(HasSubstr("0.0 g/t")));
}

TEST_F(SummaryTest, SpoiledAndExcludedChargesAreListedWithTheirReason) {
  const auto lost = fire("30 g"), good = fire("30 g"), odd = fire("30 g");
  weigh(good.bead, "0.300 mg");
  part(good.bead, "0.270 mg");
  weigh(odd.bead, "0.900 mg");
  part(odd.bead, "0.800 mg");
  ASSERT_TRUE(fire::set_spoiled(book, lost.charge, "boiled over").ok());
  set(history::fields::charge::excluded, odd.charge.value, std::string("a flake from the mould"));
  const std::string text = words();
  EXPECT_THAT(text, HasSubstr("Spoiled: boiled over."));
  EXPECT_THAT(text, HasSubstr("Left out of the mean: a flake from the mould."));
  EXPECT_THAT(text, HasSubstr("mean of fire (1)"));
  EXPECT_THAT(text, HasSubstr("Gold in the rock, by fire assay of one portion: 9.00"));
}

TEST_F(SummaryTest, CollectorSilverLeavesSilverNotDetermined) {
  const auto charge = fire("30 g", {}, "5 mg");
  weigh(charge.bead, "5.200 mg");
  part(charge.bead, "0.300 mg");
  const std::string text = words();
  EXPECT_THAT(text, HasSubstr("Silver: not determined: silver was put in the crucible"));
  EXPECT_THAT(text, HasSubstr("Collector silver: "));
  EXPECT_FALSE(line(report(), LineKind::charge).silver);
}

TEST_F(SummaryTest, ABeadWithoutFinenessGivesTheTwoMetalsTogether) {
  weigh(pan("1 kg").bead, "22.000 mg");
  EXPECT_THAT(words(), HasSubstr("Gold and silver together, caught by the pan: 22.0"));
  EXPECT_THAT(words(), HasSubstr("How much of it is gold is not determined"));
  EXPECT_FALSE(line(report(), LineKind::pan_test).gold);
}

TEST_F(SummaryTest, ASampleWithoutResultsSaysSo) {
  EXPECT_THAT(words(), HasSubstr("Nothing was tested yet: there is no result to give."));
  EXPECT_EQ(report().lines.front().kind, LineKind::no_result);
}

TEST_F(SummaryTest, NoSampleAtAllIsStillADocument) {
  EXPECT_THAT(words_of(report(std::vector<SampleId>{})), HasSubstr("There is no sample to report."));
}

TEST_F(SummaryTest, TailAndRemainderGiveTheCalculatedHead) {
  const Panned panned = pan("1 kg");
  weigh(panned.bead, "10.000 mg");
  touchstone(panned.bead, "1000");
  const auto remainder = gravity::weigh_product(book, panned.test, "remainder", testing_support::figure("20 g"), person);
  const auto tail = gravity::weigh_product(book, panned.test, "tail", testing_support::figure("970 g"), person);
  const auto weighed = [&](const fire::StartedCharge& charge, const std::string& mass) {
    weigh(charge.bead, mass);
    touchstone(charge.bead, "1000");
  };
  weighed(fire("100 g"), "2.000 mg");
  weighed(fire("10 g", *remainder), "1.000 mg");
  weighed(fire("100 g", *tail), "0.500 mg");
  const std::string text = words();
  // 10 mg + 100 g/t x 20 g + 5 g/t x 970 g = 16.85 mg in 1 kg, 84 % of 20 g/t; 10 of 16.85 are 59 %, 12 are 71 %.
  EXPECT_THAT(text, HasSubstr(", 84 % of what fire assay found"));
  EXPECT_THAT(text, HasSubstr("the free gold is 59 %, free gold and concentrate remainder together 71 %"));
  EXPECT_THAT(text, HasSubstr("fire, tail"));
}

TEST_F(SummaryTest, WhatCameAndHow) {
  using namespace history::fields;
  set(history::fields::sample::condition, sample.value, std::string("torn"));
  set(history::fields::sample::mass_declared, sample.value,
      readings::cell_of(readings::Figure(testing_support::figure("4.5 kg"))));
  const std::string text = words();
  EXPECT_THAT(text, HasSubstr("The bag arrived torn."));
  EXPECT_THAT(text, HasSubstr("You declared 4.5 kg; we weighed 4 kg on arrival: 11 % less than declared."));
}

TEST_F(SummaryTest, CautionsFindingsSignatureAndTheEndOfTheChain) {
  pan_with_gap();
  std::vector<SummarySample> samples{summarised()};
  samples[0].findings = {{"leaking_bag", "caution", "The bag leaked.", "Look for sweepings.", "none were found"}};
  const std::string text = words_of(build_report(samples, issue()));
  EXPECT_THAT(text, HasSubstr("Caution: The bag leaked. Look for sweepings. Answer of the lab: none were found"));
  EXPECT_THAT(text, HasSubstr("This is no certified assay."));
  EXPECT_THAT(text, HasSubstr("as we received it"));
  EXPECT_THAT(text, HasSubstr("public reporting"));
  EXPECT_THAT(text, HasSubstr("licensed practice"));
  EXPECT_THAT(text, HasSubstr("End of summary " + history::hex(book.head())));
}

TEST_F(SummaryTest, ACommaLabReadsCommas) {
  pan_with_gap();
  std::vector<SummarySample> samples{summarised()};
  Issue comma = issue();
  comma.say = DecimalMark::comma;
  const std::string text = words_of(build_report(samples, comma));
  EXPECT_THAT(text, HasSubstr("16,5 ± 0,6 g/t"));
  EXPECT_THAT(text, Not(HasSubstr("16.5")));
}

TEST_F(SummaryTest, SeveralSamplesBeginWithAGlance) {
  pan_with_gap();
  const SampleId other = log_sample("Dump", "1 kg");
  const std::string text = words_of(report({sample, other}));
  EXPECT_THAT(text, HasSubstr("# At a glance"));
  EXPECT_THAT(text, HasSubstr("36.7 % caught, gold left behind"));
  EXPECT_THAT(text, HasSubstr("no gold figure yet"));
}

TEST_F(SummaryTest, EveryReadingIsKeptAsTyped) {
  pan_with_gap();
  const Report made = report();
  const auto found = std::find_if(made.readings.begin(), made.readings.end(),
                                  [](const ReadingLine& line) { return line.what == "gold after parting, weighing 1"; });
  ASSERT_NE(found, made.readings.end());
  EXPECT_EQ(found->typed, "4.500 mg");
  EXPECT_DOUBLE_EQ(*found->value, 0.0045);
  EXPECT_EQ(found->who, "HM");
  EXPECT_EQ(found->balance, "bead balance");
}

}  // namespace
}  // namespace prillbook::summary
