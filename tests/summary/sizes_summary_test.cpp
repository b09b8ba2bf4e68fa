// SPDX-License-Identifier: GPL-3.0-or-later
#include <gmock/gmock.h>

#include "core/summary/lines.h"
#include "core/summary/words_of_sizes.h"
#include "tests/support/sieve_bench.h"
#include "tests/support/summary_bench.h"

namespace prillbook::summary {
namespace {

using testing::ElementsAre;
using testing::HasSubstr;
using testing::Not;
using testing_support::SieveBench;
using testing_support::words_of;

struct SizesSummary : testing::Test, SieveBench {
  SummarySample summarised() { return {record(), result(), {}}; }
  Report report() {
    const std::vector<SummarySample> samples{summarised()};
    Issue issue;
    issue.now = *parse_iso("2026-05-06T16:00:00.000+02:00");
    return build_report(samples, issue);
  }
  results::SizeResult size() { return result().sizes.at(0); }
};

TEST_F(SizesSummary, ACurveALineAndItsSentence) {
  sieved(*cut("100 g", "sieve"), stack("s", "425, 250, 150 µm"), {"10 g", "30 g", "29.9 g", "30 g"});
  const Report made = report();
  EXPECT_THAT(words_of(made), HasSubstr("80 % passes 356 µm (P80), half passes 211 µm (P50)."));
  EXPECT_THAT(words_of(made), HasSubstr("curve of 26-0001/1"));
  ASSERT_EQ(made.lines.size(), 1u);
  EXPECT_EQ(made.lines[0].kind, LineKind::sieve_analysis);
  EXPECT_EQ(made.lines[0].p80->digits, "356");
  EXPECT_EQ(made.lines[0].sieve_loss->digits, "0.10");
  std::vector<std::string> read;
  for (const ReadingLine& line : made.readings) read.push_back(line.what);
  EXPECT_THAT(read, testing::Contains("on sieve 425 µm"));
  EXPECT_THAT(read, testing::Contains("in the pan under the sieves"));
}

TEST_F(SizesSummary, WithoutAnAnalysisNothingIsSaidOfSieves) {
  panned("1 kg", "600 µm", "10 mg");
  EXPECT_THAT(words_of(report()), Not(HasSubstr("How fine it was ground")));
}

TEST_F(SizesSummary, OutsideTheSievesThereIsNoFigure) {
  sieved(*cut("100 g", "sieve"), stack("s", "250, 150 µm"), {"30 g", "30 g", "40 g"});
  EXPECT_THAT(size_words(size(), DecimalMark::comma)[0], HasSubstr("above the top sieve, 250 µm, which 70,0 % pass"));
  EXPECT_FALSE(report().lines[0].p80);
}

TEST_F(SizesSummary, WhatItWaitsFor) {
  sieved(*cut("100 g", "sieve"), stack("s", "250, 150 µm"), {"30 g", "", ""});
  EXPECT_THAT(size_words(size(), DecimalMark::point), ElementsAre("Waits for 150 µm and the pan."));
  EXPECT_EQ(report().lines[0].state, "waiting");
}

// The printed test of tests/published: Gaudin–Schuhmann is far off on it, Rosin–Rammler rough.
TEST_F(SizesSummary, ALawThatDoesNotFitSaysSo) {
  sieved(*cut("44.54 g", "sieve"), stack("s", "250, 180, 125, 90, 63, 45 µm"),
         {"0.02 g", "1.32 g", "4.23 g", "9.44 g", "13.10 g", "11.56 g", "4.87 g"});
  const Sentences words = law_words(size(), DecimalMark::point);
  ASSERT_EQ(words.size(), 2u);
  EXPECT_THAT(words[0], HasSubstr("m 1.18, k 181 µm, r² 0.784"));
  EXPECT_THAT(words[0], HasSubstr("do not trust it"));
  EXPECT_THAT(words[1], HasSubstr("n 2.30, x′ 97.5 µm, r² 0.971"));
}

TEST_F(SizesSummary, WhichSizeHoldsTheGold) {
  const auto id = sieved(*cut("100 g", "sieve"), stack("s", "250, 150 µm"), {"50 g", "20 g", "30 g"});
  const auto fractions = *sieves::make_fractions(book, id, person);
  fired(fractions[0], "1 mg");
  EXPECT_THAT(metal_words(size(), DecimalMark::point)[0], HasSubstr("−250 µm +150 µm, −150 µm not assayed"));
  fired(fractions[1], "2 mg");
  fired(fractions[2], "0.2 mg");
  EXPECT_THAT(metal_words(size(), DecimalMark::point)[0],
              "Of the sizes −250 µm +150 µm holds most gold: 63 % of it in 20 % of the mass.");
  const Report made = report();
  EXPECT_EQ(made.lines.back().kind, LineKind::test_of_fraction);
  EXPECT_EQ(made.lines.back().size, "−150 µm");
}

TEST_F(SizesSummary, WhatAFinerGrindCaught) {
  panned("1 kg", "600 µm", "10 mg");
  panned("1 kg", "150 µm", "16 mg");
  fired(*cut("100 g", "fire"), "2 mg");
  const auto words = words_of(report());
  EXPECT_THAT(words, HasSubstr("P80 600 µm: 9.0"));
  EXPECT_THAT(words, HasSubstr("From P80 600 µm to 150 µm the pan caught 5.4"));
  EXPECT_THAT(words, HasSubstr("more, which is beyond the uncertainty; sampling not judged."));
}

TEST_F(SizesSummary, AFinerGrindThatCaughtLessOrNoMore) {
  panned("1 kg", "600 µm", "16 mg");
  panned("1 kg", "150 µm", "10 mg");
  EXPECT_THAT(grind_words(result().grinds, DecimalMark::point)[0], HasSubstr("less, which is beyond the uncertainty"));
  another("B");
  panned("1 kg", "600 µm", "10 mg", "50");
  panned("1 kg", "150 µm", "10.3 mg", "50");
  EXPECT_THAT(grind_words(result().grinds, DecimalMark::point)[0], HasSubstr("not beyond the uncertainty"));
}

}  // namespace
}  // namespace prillbook::summary
