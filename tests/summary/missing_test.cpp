// SPDX-License-Identifier: GPL-3.0-or-later
// What has to be done next, and what can not be said.
#include <gmock/gmock.h>

#include "core/summary/words.h"
#include "tests/support/summary_bench.h"

namespace prillbook::summary {
namespace {

using ::testing::ElementsAre;
using ::testing::HasSubstr;
using ::testing::IsEmpty;
using testing_support::figure;
using testing_support::SummaryBench;

struct MissingTest : ::testing::Test, SummaryBench {
  Sentences missing() { return what_is_missing(summarised().result); }
};

TEST_F(MissingTest, EachSideSaysItsNextStep) {
  EXPECT_THAT(missing(), ElementsAre(HasSubstr("cut a portion for the pan"), HasSubstr("begin a charge")));
  const Panned panned = pan("1 kg");
  EXPECT_THAT(missing(), ElementsAre(HasSubstr("waits for the balance"), HasSubstr("begin a charge")));
  weigh(panned.bead, "22.000 mg");
  EXPECT_THAT(missing(), ElementsAre(HasSubstr("has no fineness"), HasSubstr("begin a charge")));
}

TEST_F(MissingTest, NothingIsMissingWherePanAndFireStand) {
  pan_with_gap();
  EXPECT_THAT(missing(), IsEmpty());
}

// A grade must not look sure because the balance of its bead was not named.
TEST_F(MissingTest, AWeighingWithoutABalanceHasNoUncertainty) {
  const Panned panned = pan("1 kg");
  ASSERT_TRUE(weighing::weigh(book, {panned.bead, "bead", figure("22.000 mg"), {}, {}, person}).ok());
  touchstone(panned.bead, "750");
  const auto grade = summarised().result.pan[0].grade;
  EXPECT_FALSE(grade->bead.spread);
  EXPECT_FALSE(grade->gold->spread);
  EXPECT_TRUE(grade->budget.empty());
  EXPECT_THAT(missing(), ElementsAre(HasSubstr("begin a charge"), HasSubstr("no balance with a step is named")));

  ASSERT_TRUE(weighing::weigh(book, {panned.bead, "bead", figure("22.010 mg"), {}, {}, person}).ok());
  EXPECT_TRUE(summarised().result.pan[0].grade->bead.spread) << "two readings speak for each other";
}

}  // namespace
}  // namespace prillbook::summary
