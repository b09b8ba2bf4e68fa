// SPDX-License-Identifier: GPL-3.0-or-later
// Every figure of a summary says where it comes from.
#include "core/summary/origins.h"

#include <gtest/gtest.h>

#include <algorithm>

#include "core/summary/words.h"
#include "tests/support/summary_bench.h"

namespace prillbook::summary {
namespace {

using ::testing::HasSubstr;
using testing_support::SummaryBench;
using testing_support::words_of;

struct OriginsTest : ::testing::Test, SummaryBench {
  std::vector<Origin> origins() { return origins_of(summarised(), DecimalMark::point); }
  static const Origin* named(const std::vector<Origin>& all, const std::string& what) {
    const auto found = std::find_if(all.begin(), all.end(), [&](const Origin& one) { return one.what.starts_with(what); });
    return found == all.end() ? nullptr : &*found;
  }
};

TEST_F(OriginsTest, AGoldFigureUnfoldsToItsReadings) {
  const auto panned = pan_with_gap();
  const auto all = origins();
  const Origin* gold = named(all, "Gold, " + summarised().record.portion_label(panned.portion));
  ASSERT_TRUE(gold);
  EXPECT_THAT(gold->figure, HasSubstr("16.5"));
  EXPECT_THAT(gold->formula, HasSubstr("fineness"));
  EXPECT_FALSE(gold->source.empty());
  std::string readings;
  for (const ReadingLine& line : gold->readings) readings += reading_in_words(line) + "\n";
  EXPECT_THAT(readings, HasSubstr("bead, weighing 1: 22.000 mg"));
  EXPECT_THAT(readings, HasSubstr("HM"));
  EXPECT_THAT(readings, HasSubstr("bead balance, step 0.001 mg"));
  EXPECT_THAT(readings, HasSubstr("portion (pan): 1 kg"));
}

TEST_F(OriginsTest, WhatRestsOnOtherFiguresNamesThem) {
  pan_with_gap();
  const auto all = origins();
  const Origin* recovery = named(all, "Pan recovery");
  ASSERT_TRUE(recovery);
  ASSERT_EQ(recovery->from.size(), 2u);
  for (const std::string& other : recovery->from) EXPECT_TRUE(named(all, other)) << other;
  ASSERT_TRUE(named(all, "Gold, mean of fire"));
  EXPECT_EQ(named(all, "Gold, mean of fire")->from.size(), 1u);
}

TEST_F(OriginsTest, NothingTestedHasNoFigures) { EXPECT_TRUE(origins().empty()); }

// A finer grind, in the order of the questions on page one.
TEST_F(OriginsTest, TheQuestionOfAFinerGrindIsAnswered) {
  EXPECT_TRUE(a_finer_grind(summarised(), DecimalMark::point).empty()) << "nothing was panned";
  pan_with_gap();
  const std::string text = words_of(report());
  EXPECT_THAT(text, HasSubstr("# Is a finer grind worth a trial\nYes, a trial is worth it"));
  const auto place = [&](const char* heading) { return text.find(std::string("# ") + heading); };
  EXPECT_LT(place("What you sent"), place("What we found"));
  EXPECT_LT(place("What we found"), place("What the pan caught"));
  EXPECT_LT(place("What the pan caught"), place("Is a finer grind"));
  EXPECT_LT(place("Is a finer grind"), place("How sure we are"));
  EXPECT_LT(place("How sure we are"), place("Every test of this sample"));
  EXPECT_LT(place("Every test of this sample"), place("Dates, and whose hands"));
}

}  // namespace
}  // namespace prillbook::summary
