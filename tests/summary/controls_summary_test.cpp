// SPDX-License-Identifier: GPL-3.0-or-later
// What a summary says of the controls that went through the furnace beside a sample.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "core/fire/runs.h"
#include "core/summary/gather.h"
#include "core/summary/words.h"
#include "tests/support/quality_bench.h"

namespace prillbook::summary {
namespace {

using testing::ElementsAre;
using testing::HasSubstr;
using testing_support::QualityBench;

struct ControlsSummary : testing::Test, QualityBench {
  FurnaceRunId run = *fire::start_run(book, {"fusion 1", "fusion", person});
  fire::StartedCharge client = charge("30 g", run);

  ControlsSummary() { gold_of(client, "0.150 mg"); }
  Sentences words() { return controls_in_words(*gather(*connection, sample), DecimalMark::point); }
  void decide(const std::string& decision, const std::string& reason) {
    ASSERT_TRUE(results::decide_run(book, run, decision, reason, person).ok());
  }
};

TEST_F(ControlsSummary, NothingWithoutControls) { EXPECT_THAT(words(), testing::IsEmpty()); }

TEST_F(ControlsSummary, SaysWhatTheyGaveAndWhatWasDecided) {
  gold_of(of_stock(add_material("quartz", "blank_rock"), "50 g", run), "0.012 mg");
  EXPECT_THAT(words(), ElementsAre(HasSubstr("Load “fusion 1”: rock blank quartz: 0.24")));
  EXPECT_THAT(words(), ElementsAre(HasSubstr("outside. Not decided yet: these results are open to doubt.")));
  decide("accepted", "twenty times as much in the samples");
  EXPECT_THAT(words(), ElementsAre(HasSubstr("Accepted on 2026-05-04: twenty times as much in the samples.")));
  gold_of(of_stock(reference("5.00 g/t", "0.20 g/t"), "30 g", run), "0.150 mg");
  EXPECT_THAT(words(), ElementsAre(HasSubstr("on other control results than these")));
}

TEST_F(ControlsSummary, FiguresAndLimitsAreToldInTheLanguageOfThePage) {
  gold_of(of_stock(add_material("cuarzo", "blank_rock"), "50 g", run), "0.012 mg");
  const auto first = charge("30 g", run);
  gold_of(first, "0.190 mg");
  ASSERT_TRUE(controls::set_duplicate(book, first.charge, client.charge, controls::Role::duplicate_pulp).ok());
  const Speech spanish(wording::Language::spanish, DecimalMark::comma);
  const auto told = controls_in_words(*gather(*connection, sample), spanish);
  EXPECT_THAT(told, ElementsAre(HasSubstr("0,24")));
  EXPECT_THAT(told, ElementsAre(HasSubstr("g/t de oro (permitido a lo más 0,1 g/t), fuera")));
  EXPECT_THAT(told, ElementsAre(HasSubstr("5,00 y 6,33 g/t de oro, a 24 % uno de otro (permitido a 10 % uno de otro)")));
}

TEST_F(ControlsSummary, AHeldLoadIsPreliminaryAndSaysSoAtItsCharge) {
  decide("held", "the slag kept its lead");
  const Report report = *report_of(*connection, std::vector{sample}, clock.now());
  EXPECT_TRUE(report.preliminary);
  EXPECT_EQ(report.lines.at(0).held, "fusion 1: the slag kept its lead");
  EXPECT_THAT(words(), ElementsAre("Load “fusion 1”: no control in it. Held back on 2026-05-04: the slag kept its lead."));
}

TEST_F(ControlsSummary, ARepeatedLoadIsLeftOut) {
  decide("repeated", "the slag kept its lead");
  const Report report = *report_of(*connection, std::vector{sample}, clock.now());
  EXPECT_EQ(report.lines.at(0).state, "excluded");
  EXPECT_THAT(report.lines.at(0).reason, HasSubstr("the load is repeated, fusion 1"));
}

// A duplicate of another client's rock is nobody else's business.
TEST_F(ControlsSummary, DuplicatesOfOthersStayUnnamed) {
  const SampleId own = sample;
  sample = log_sample("Larch adit S", "2 kg");
  const auto first = charge("30 g", run), second = charge("30 g", run);
  ASSERT_TRUE(controls::set_duplicate(book, second.charge, first.charge, controls::Role::duplicate_pulp).ok());
  EXPECT_THAT(words(), ElementsAre(HasSubstr("pulp duplicate of 26-0002/1")));
  sample = own;
  EXPECT_THAT(words(), testing::IsEmpty());
}

}  // namespace
}  // namespace prillbook::summary
