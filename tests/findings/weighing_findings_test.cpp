// SPDX-License-Identifier: GPL-3.0-or-later
#include <gmock/gmock.h>

#include <algorithm>

#include "core/findings/finding.h"
#include "core/fire/charge_record.h"
#include "core/history/fields.h"
#include "core/results/sample_result.h"
#include "core/units/units.h"
#include "tests/support/records.h"

namespace prillbook::findings {
namespace {

using testing::Contains;
using testing::HasSubstr;
using testing::Not;
using testing_support::figure;
using testing_support::LabWithSample;

struct WeighingFindings : testing::Test, LabWithSample<> {
  CheckWeightId twenty = *weighing::add_check_weight(book, "20 mg", figure("20 mg"), figure("0.005 mg"));

  void check(const std::string& mass, const std::string& at) {
    ASSERT_TRUE(weighing::weigh_check(book, {balance, twenty, figure(mass), *parse_iso(at), person, {}}).ok());
  }
  WeighingId weigh(const std::string& mass, const std::string& at = "2026-05-04T11:00+02:00") {
    const BeadId bead = fire::start_charge(book, {*cut("30 g", "fire"), {}, person, {}, {}, {}})->bead;
    return *weighing::weigh(book, {bead, std::string(weighing::of_bead), figure(mass), balance, *parse_iso(at), person});
  }
  std::vector<Finding> found() {
    const auto record = *results::load_sample_record(*connection, sample);
    return look({record, results::compute(record)});
  }
  std::vector<std::string> rules_found() {
    std::vector<std::string> names;
    for (const Finding& finding : found()) names.push_back(finding.rule);
    return names;
  }
  std::string seen(const std::string& rule) {
    for (const Finding& finding : found())
      if (finding.rule == rule) return finding.seen;
    return "";
  }
};

TEST_F(WeighingFindings, AFailedCheckMarksLaterReadingsUntilOnePasses) {
  check("20.009 mg", "2026-05-04T08:00+02:00");
  weigh("22 mg", "2026-05-04T07:00+02:00");
  EXPECT_THAT(rules_found(), Not(Contains("check_weight_failed"))) << "weighed before it";
  weigh("23 mg", "2026-05-04T09:00+02:00");
  EXPECT_THAT(seen("check_weight_failed"), HasSubstr("23 mg"));
  EXPECT_THAT(seen("check_weight_failed"), Not(HasSubstr("22 mg")));
  check("20.001 mg", "2026-05-04T10:00+02:00");
  weigh("24 mg", "2026-05-04T11:00+02:00");
  EXPECT_THAT(seen("check_weight_failed"), Not(HasSubstr("24 mg")));
}

TEST_F(WeighingFindings, ABalanceThatIsCheckedAtAllIsCheckedThatDay) {
  weigh("22 mg");
  EXPECT_THAT(rules_found(), Not(Contains("balance_not_checked"))) << "a lab without checks is left alone";
  check("20.001 mg", "2026-05-03T08:00+02:00");
  EXPECT_THAT(seen("balance_not_checked"), HasSubstr("bead balance"));
  check("20.001 mg", "2026-05-04T08:00+02:00");
  EXPECT_THAT(rules_found(), Not(Contains("balance_not_checked")));
}

TEST_F(WeighingFindings, NearTheStep) {
  weigh("0.020 mg");
  EXPECT_THAT(rules_found(), Not(Contains("near_step"))) << "twenty steps";
  weigh("0.010 mg");
  EXPECT_THAT(seen("near_step"), HasSubstr("5.0 %")) << "half a step of ten";
}

TEST_F(WeighingFindings, NoMultipleOfTheStep) {
  weigh("22.001 mg");
  EXPECT_THAT(rules_found(), Not(Contains("off_step")));
  weigh("22.0005 mg");
  EXPECT_THAT(seen("off_step"), HasSubstr("22.0005 mg"));
}

TEST_F(WeighingFindings, AboveTheCapacityThatWasEnteredLater) {
  weigh("22 mg");
  EXPECT_THAT(rules_found(), Not(Contains("over_range")));
  ASSERT_TRUE(readings::enter(book, history::fields::balance::capacity, balance.value,
                              readings::cell_of(readings::Figure{figure("20 mg")}))
                  .ok());
  EXPECT_THAT(seen("over_range"), HasSubstr("20 mg"));
}

TEST_F(WeighingFindings, AWeighingLeftOutSaysNothing) {
  const WeighingId id = weigh("0.010 mg");
  ASSERT_TRUE(weighing::exclude(book, id, "slipped").ok());
  EXPECT_THAT(rules_found(), Not(Contains("near_step")));
}

struct RepeatsApart : WeighingFindings {
  BeadId bead;

  void weighed(const std::vector<std::string>& masses, BalanceId on = {}) {
    bead = fire::start_charge(book, {*cut("100 g", "fire"), {}, person, {}, {}, {}})->bead;
    for (const std::string& mass : masses) again(mass, on ? on : balance);
  }
  WeighingId again(const std::string& mass, BalanceId on) {
    return *weighing::weigh(book, {bead, std::string(weighing::of_bead), figure(mass), on, {}, person});
  }
};

// A step of 0.001 mg and nothing else known: 2 × 2.8 steps are 0.0056 mg.
TEST_F(RepeatsApart, BeyondWhatTheStepExplains) {
  weighed({"0.234 mg", "0.239 mg"});
  EXPECT_EQ(seen("repeats_apart"), "");
  weighed({"0.234 mg", "0.240 mg"});
  EXPECT_THAT(seen("repeats_apart"), HasSubstr("lie 0.0060 mg apart (0.234 mg, 0.240 mg); 0.0056 mg would be much"));
}

TEST_F(RepeatsApart, TwoDigitsExchangedAreNamed) {
  weighed({"1.235 mg", "1.243 mg"});
  EXPECT_THAT(seen("repeats_apart"), HasSubstr("With two digits exchanged 1.243 mg would be 1.234 mg."));
}

TEST_F(RepeatsApart, ANoteOfTheExchangeOnlyWhereItIsClear) {
  weighed({"1.12 mg", "1.21 mg"});
  EXPECT_THAT(seen("repeats_apart"), HasSubstr("0.09"));
  EXPECT_THAT(seen("repeats_apart"), Not(HasSubstr("digits"))) << "either may be the one";
}

TEST_F(RepeatsApart, WhatMovesNoGradeIsLetPass) {
  weighed({"22.000 mg", "22.100 mg"});
  EXPECT_EQ(seen("repeats_apart"), "") << "0.45 %";
  weighed({"22.000 mg", "22.200 mg"});
  EXPECT_NE(seen("repeats_apart"), "");
}

TEST_F(RepeatsApart, ABalanceThatIsKnownToScatter) {
  ASSERT_TRUE(readings::enter(book, history::fields::balance::repeatability, balance.value,
                              readings::cell_of(readings::Figure{figure("0.03 mg")}))
                  .ok());
  weighed({"1.234 mg", "1.394 mg"});
  EXPECT_EQ(seen("repeats_apart"), "") << "0.168 mg are allowed";
  weighed({"1.234 mg", "1.404 mg"});
  EXPECT_NE(seen("repeats_apart"), "");
}

TEST_F(RepeatsApart, AnotherBalanceOrOneLeftOutIsNoRepeat) {
  weighed({"1.234 mg"});
  again("1.30 mg", *lab::add_balance(book, "bench scale", figure("0.01 mg")));
  EXPECT_EQ(seen("repeats_apart"), "");
  const WeighingId third = again("1.30 mg", balance);
  EXPECT_THAT(seen("repeats_apart"), HasSubstr("(1.234 mg, 1.30 mg)")) << "another balance between them";
  ASSERT_TRUE(weighing::exclude(book, third, "misread").ok());
  weighed({"1.234 mg"});
  const WeighingId slip = again("1.324 mg", balance);
  EXPECT_NE(seen("repeats_apart"), "");
  ASSERT_TRUE(weighing::exclude(book, slip, "digits exchanged").ok());
  EXPECT_EQ(seen("repeats_apart"), "");
}

struct BeadMoved : WeighingFindings {
  TrayId cupels = *trays::lay_out(book, {"cupels", trays::Kind::cupel, {}});
  TrayId beads = *trays::lay_out(book, {"beads", trays::Kind::bead, {}});

  fire::StartedCharge charge_on(std::int64_t cupel) {
    const auto started = *fire::start_charge(book, {*cut("30 g", "fire"), {}, person, {}, {}, {}});
    EXPECT_TRUE(trays::place(book, cupels, cupel, {started.charge, {}, {}}).ok());
    return started;
  }
  void put(std::int64_t position, const fire::StartedCharge& charge) {
    ASSERT_TRUE(trays::place(book, beads, position, {charge.charge, {}, {}}).ok());
  }
  void weigh_from(TrayId tray, std::int64_t position, BeadId bead) {
    weighing::NewWeighing fresh{bead, std::string(weighing::of_bead), figure("22 mg"), balance, {}, person};
    fresh.tray = tray;
    fresh.position = position;
    ASSERT_TRUE(weighing::weigh(book, fresh).ok());
  }
};

TEST_F(BeadMoved, AnOrderThatIsKeptSaysNothing) {
  const auto first = charge_on(2), second = charge_on(5);
  ASSERT_TRUE(trays::carry_on(book, cupels, beads).ok());
  weigh_from(beads, 2, first.bead);
  weigh_from(beads, 5, second.bead);
  EXPECT_THAT(rules_found(), Not(Contains("bead_moved")));
}

TEST_F(BeadMoved, AnotherOrderAtTheBalanceIsSeenAndARecordedMoveIsNot) {
  const auto first = charge_on(1), second = charge_on(2), third = charge_on(3);
  put(1, first);
  put(2, third);
  put(3, second);
  EXPECT_THAT(seen("bead_moved"), HasSubstr("26-0001/2 stood on position 2 of cupels and was put on position 3 of beads"));
  EXPECT_THAT(seen("bead_moved"), HasSubstr("26-0001/3"));
  EXPECT_THAT(seen("bead_moved"), Not(HasSubstr("26-0001/1 ")));
  ASSERT_TRUE(trays::swap(book, cupels, 2, 3, "they were exchanged on the way out of the furnace").ok());
  EXPECT_THAT(rules_found(), Not(Contains("bead_moved"))) << "the cupels are recorded as they came";
}

TEST_F(BeadMoved, WeighedFromAnotherPlace) {
  const auto first = charge_on(1);
  weigh_from(cupels, 4, first.bead);
  EXPECT_THAT(seen("bead_moved"), HasSubstr("weighed from position 4; its last recorded place is position 1 of cupels"));
}

TEST_F(BeadMoved, MovedAfterItWasWeighed) {
  const auto first = charge_on(1);
  weigh_from(cupels, 1, first.bead);
  EXPECT_THAT(rules_found(), Not(Contains("bead_moved")));
  ASSERT_TRUE(trays::move(book, cupels, 1, 6, "cracked cupel").ok());
  EXPECT_THAT(seen("bead_moved"), HasSubstr("it has been recorded on position 6 since"));
}

TEST_F(BeadMoved, WeighedFromATrayItIsNotOn) {
  const BeadId bead = fire::start_charge(book, {*cut("30 g", "fire"), {}, person, {}, {}, {}})->bead;
  weigh_from(beads, 1, bead);
  EXPECT_THAT(seen("bead_moved"), HasSubstr("a tray that it is not recorded on"));
}

// The balance's scatter by its checks goes into the uncertainty of a bead.
TEST_F(WeighingFindings, PooledRepeatabilityWidensTheInterval) {
  weigh("22 mg");
  const auto width = [&] {
    const auto record = *results::load_sample_record(*connection, sample);
    const auto grade = *results::grade_of_bead(record, record.charges.front().bead.id);
    return (grade->bead.hi->in(unit::gram_per_tonne)-grade->bead.lo->in(unit::gram_per_tonne)) / 2;
  };
  const double before = width();
  for (const char* mass : {"20.004", "19.996", "20.004", "19.996", "20.004", "19.996"})
    check(std::string(mass) + " mg", "2026-05-04T08:00+02:00");
  EXPECT_GT(width(), 5 * before);
}

}  // namespace
}  // namespace prillbook::findings
