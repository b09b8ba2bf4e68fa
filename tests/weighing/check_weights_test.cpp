// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/weighing/check_weights.h"

#include <gmock/gmock.h>

#include "core/fire/charge_record.h"
#include "core/history/fields.h"
#include "core/units/units.h"
#include "core/weighing/spread.h"
#include "tests/support/records.h"

namespace prillbook::weighing {
namespace {

using testing_support::figure;
using testing_support::LabWithSample;

struct CheckWeights : testing::Test, LabWithSample<> {
  CheckWeightId twenty = *add_check_weight(book, "20 mg", figure("20 mg"), figure("0.005 mg"));

  void check(const std::string& mass, const std::string& at, CheckWeightId weight) {
    const auto made = weigh_check(book, {balance, weight, figure(mass), *parse_iso(at), person, {}});
    ASSERT_TRUE(made.ok()) << made.error().detail;
  }
  void check(const std::string& mass, const std::string& at) { check(mass, at, twenty); }
  CheckVerdict at(const std::string& when) {
    held = *check_weighings(*connection, balance, 100);
    return verdict_at(held, balance, *parse_iso(when));
  }
  std::vector<CheckWeighing> held;
};

TEST_F(CheckWeights, KeepWhatTheyWereThen) {
  check("20.003 mg", "2026-05-04T08:00+02:00");
  ASSERT_TRUE(readings::enter(book, history::fields::check_weight::allowed, twenty.value,
                              readings::cell_of(readings::Figure{figure("0.001 mg")}))
                  .ok());
  const auto list = *check_weighings(*connection, balance, 10);
  ASSERT_EQ(list.size(), 1u);
  EXPECT_FALSE(list[0].failed()) << "5 µg were allowed on that day";
  EXPECT_NEAR(list[0].deviation().in(unit::microgram), 3, 1e-6);
  EXPECT_EQ(list[0].mass.step_g, 1e-6);
}

TEST_F(CheckWeights, TheLimitItselfPasses) {
  check("20.005 mg", "2026-05-04T08:00+02:00");
  EXPECT_FALSE(check_weighings(*connection, balance, 1)->front().failed());
  check("20.006 mg", "2026-05-04T08:01+02:00");
  EXPECT_TRUE(check_weighings(*connection, balance, 1)->front().failed());
  check("19.994 mg", "2026-05-04T08:02+02:00");
  EXPECT_TRUE(check_weighings(*connection, balance, 1)->front().failed());
}

TEST_F(CheckWeights, WhatABalanceIsAtAMoment) {
  const CheckWeightId two = *add_check_weight(book, "2 mg", figure("2 mg"), figure("0.005 mg"));
  check("20.001 mg", "2026-05-04T08:00+02:00");
  check("2.009 mg", "2026-05-04T08:05+02:00", two);
  check("2.001 mg", "2026-05-04T10:00+02:00", two);
  EXPECT_EQ(at("2026-05-04T07:00+02:00").state, CheckState::never);
  EXPECT_EQ(at("2026-05-04T08:01+02:00").state, CheckState::passed);
  EXPECT_EQ(at("2026-05-04T09:00+02:00").state, CheckState::failed) << "one weight of two is enough";
  EXPECT_EQ(at("2026-05-04T09:00+02:00").last->mass.typed, "2.009 mg");
  EXPECT_EQ(at("2026-05-04T11:00+02:00").state, CheckState::passed) << "until it passes again";
  EXPECT_EQ(at("2026-05-05T08:00+02:00").state, CheckState::other_day);
  EXPECT_EQ(verdict_at(held, BalanceId{77}, *parse_iso("2026-05-05T08:00+02:00")).state, CheckState::never);
}

TEST_F(CheckWeights, RepeatabilityIsPooledOverTheWeights) {
  const CheckWeightId two = *add_check_weight(book, "2 mg", figure("2 mg"), figure("0.005 mg"));
  for (const char* mass : {"20.000 mg", "20.002 mg", "20.004 mg"}) check(mass, "2026-05-04T08:00+02:00");
  held = *check_weighings(*connection, balance, 100);
  EXPECT_FALSE(pooled_of_checks(held, balance)) << "two degrees of freedom tell little";
  for (const char* mass : {"2.000 mg", "2.001 mg", "2.002 mg", "2.003 mg"}) check(mass, "2026-05-04T08:00+02:00", two);
  held = *check_weighings(*connection, balance, 100);
  const auto pooled = pooled_of_checks(held, balance);
  ASSERT_TRUE(pooled);
  EXPECT_EQ(pooled->dof, 5);
  // Sums of squares 8 and 5 µg² by hand.
  EXPECT_NEAR(pooled->sd.in(unit::microgram), std::sqrt(13.0 / 5), 1e-6);
}

TEST_F(CheckWeights, RefusesWhatIsNoWeight) {
  EXPECT_EQ(add_check_weight(book, "x", figure("0 mg"), figure("1 mg")).error().code, ErrorCode::out_of_range);
  EXPECT_EQ(add_check_weight(book, "x", figure("1 mg"), figure("none")).error().code, ErrorCode::out_of_range);
  EXPECT_EQ(add_check_weight(book, "", figure("1 mg"), figure("1 mg")).error().code, ErrorCode::missing_key);
  EXPECT_EQ(weigh_check(book, {balance, CheckWeightId{9}, figure("1 mg"), {}, person, {}}).error().code, ErrorCode::not_found);
  EXPECT_EQ(check_weight_by_name(*connection, "none").error().code, ErrorCode::not_found);
}

struct Repeats : CheckWeights {
  BeadId bead_id = fire::start_charge(book, {*cut("30 g", "fire"), {}, person, {}, {}, {}})->bead;

  Bead weighed(const std::vector<std::string>& masses) {
    for (const std::string& mass : masses)
      EXPECT_TRUE(weigh(book, {bead_id, std::string(of_bead), figure(mass), balance, {}, person}).ok());
    return *bead(*connection, bead_id);
  }
};

TEST_F(Repeats, OneThatStandsOutIsNamedAndKept) {
  // The data of NIST handbook 1.3.5.17.1 (from memory), as mg: G 2.4688. Two-sided 5 % limit of eight: 2.127 (printed table).
  const Bead bead =
      weighed({"199.31 mg", "199.53 mg", "200.19 mg", "200.82 mg", "201.92 mg", "201.95 mg", "202.18 mg", "245.57 mg"});
  const Spread spread = spread_of(bead, of_bead);
  EXPECT_EQ(spread.n, 8);
  EXPECT_NEAR(*spread.grubbs, 2.4688, 5e-5);
  EXPECT_NEAR(*spread.critical, 2.127, 1e-3);
  ASSERT_TRUE(spread.outlier);
  EXPECT_EQ(spread.outlier->mass.typed, "245.57 mg");
  EXPECT_NEAR(spread.mean.in(unit::milligram), 206.434, 5e-4) << "it still counts";
}

TEST_F(Repeats, NothingStandsOutOfTwoOrOfEquals) {
  Bead bead = weighed({"1 mg", "2 mg"});
  EXPECT_FALSE(spread_of(bead, of_bead).outlier);
  EXPECT_TRUE(spread_of(bead, of_bead).sd);
  EXPECT_EQ(spread_of(bead, of_gold).n, 0);
  bead = weighed({"3 mg"});
  EXPECT_FALSE(spread_of(bead, of_bead).outlier) << "1, 2, 3 keep together";
}

TEST(Swaps, AreAskedAboutOnlyWhereTheOtherFits) {
  // Common practice, no source: a barren rock of 300 g/t beside a specimen of 0.04 g/t.
  EXPECT_TRUE(perhaps_swapped(300, 0.05, 300, 300));
  EXPECT_FALSE(perhaps_swapped(300, 0.05, 300, 5)) << "no other bead would fit";
  EXPECT_FALSE(perhaps_swapped(6, 5, 6, 5)) << "in keeping";
}

}  // namespace
}  // namespace prillbook::weighing
