// SPDX-License-Identifier: GPL-3.0-or-later
// Each rule about custody: what it sees, and that it says nothing where all is in order.
#include <gtest/gtest.h>

#include "core/custody/wanted.h"
#include "core/findings/finding.h"
#include "core/history/fields.h"
#include "core/portions/net_mass.h"
#include "tests/support/records.h"

namespace prillbook::findings {
namespace {

using testing_support::figure;
using testing_support::LabWithSample;
namespace sample_fields = history::fields::sample;

struct CustodyFindings : testing::Test, LabWithSample<> {
  static Instant at(const std::string& text) { return *parse_iso(text); }
  Instant later = at("2026-09-01T12:00+02:00");

  std::optional<Finding> only(const std::string& rule, SampleId id = {}) {
    const auto found = findings_of(*connection, id ? id : sample, later);
    EXPECT_TRUE(found.ok());
    EXPECT_LE(found->size(), 1u);
    for (const OpenOrAnswered& one : *found) {
      EXPECT_EQ(one.finding.rule, rule);
      for (const std::string* said : {&one.finding.seen, &one.finding.why, &one.finding.to_do, &one.finding.source})
        EXPECT_FALSE(said->empty()) << rule;
      EXPECT_FALSE(one.finding.evidence.empty()) << rule;
      return one.finding;
    }
    return std::nullopt;
  }
  void enter(const history::Field& field, const std::string& text) {
    ASSERT_TRUE(
        readings::enter(book, field, field.entity == history::Entity::consignment ? consignment.value : sample.value, text).ok());
  }
  void enter(const history::Field& field, std::int64_t number) {
    ASSERT_TRUE(readings::enter(book, field, consignment.value, number).ok());
  }
  void piece(const std::string& declared, const std::string& found, const std::string& state) {
    const auto word = [](const std::string& text) { return text.empty() ? std::nullopt : std::optional(text); };
    ASSERT_TRUE(custody::add_piece(book, {consignment, "sealed", word(declared), word(found), word(state), {}}).ok());
  }
  void hand(const std::string& from, const std::string& to, const std::string& when, const std::optional<std::string>& seal = {},
            const std::optional<std::string>& state = {}) {
    ASSERT_TRUE(custody::hand_over(book, {sample}, {from, to, {}, at(when), {}, seal, state, {}, {}, person}).ok());
  }
  void fire_gold(const std::string& gold) {
    const auto charge = fire::start_charge(book, {*cut("100 g", "fire"), {}, person, {}, {}, {}});
    ASSERT_TRUE(weighing::weigh(book, {charge->bead, "bead", figure(gold), balance, {}, person}).ok());
    ASSERT_TRUE(weighing::set_fineness(book, charge->bead, "touchstone", figure("1000", Measure::fineness), {}).ok());
  }
};

TEST_F(CustodyFindings, NothingIsSaidOfASampleThatWasMerelyReceived) { EXPECT_FALSE(only("")); }

TEST_F(CustodyFindings, WholeSealsAreNoFinding) {
  piece("4471", "4471", "intact");
  piece("", "", "");
  hand("HM", "TB", "2026-05-05T09:00+02:00", "4471", "intact");
  hand("TB", "HM", "2026-05-06T09:00+02:00", "4502", "renewed");
  hand("HM", "TB", "2026-05-07T09:00+02:00", "4502", "intact");
  EXPECT_FALSE(only(""));
}

TEST_F(CustodyFindings, ABrokenSealOfAPiece) {
  piece("4471", "4471", "broken");
  const auto found = only("seal_not_whole");
  ASSERT_TRUE(found);
  EXPECT_EQ(found->seen, "Piece 1: the seal 4471 is broken.");
  EXPECT_EQ(found->severity, Severity::caution);
}

TEST_F(CustodyFindings, AMissingSealAndAnotherNumber) {
  piece("4471", "", "");
  piece("4472", "4499", "intact");
  const auto found = only("seal_not_whole");
  ASSERT_TRUE(found);
  EXPECT_EQ(found->seen, "Piece 1: the seal 4471 is missing. Piece 2: seal 4472 was named, 4499 found.");
  EXPECT_EQ(found->evidence.size(), 2u);
}

TEST_F(CustodyFindings, ASealThatChangedBetweenTwoHolders) {
  hand("HM", "TB", "2026-05-05T09:00+02:00", "4471", "intact");
  EXPECT_FALSE(only(""));
  hand("TB", "HM", "2026-05-06T09:00+02:00", "4502", "intact");
  ASSERT_TRUE(only("seal_not_whole"));
}

TEST_F(CustodyFindings, AHandOverStartsWhereTheLastEnded) {
  hand("Hanna Moss", "TB", "2026-05-05T09:00+02:00");
  hand("tb", "HM", "2026-05-06T09:00+02:00");
  EXPECT_FALSE(only("")) << "initials and name of one person are one holder";
  hand("AK", "TB", "2026-05-07T09:00+02:00");
  const auto found = only("hand_over_gap");
  ASSERT_TRUE(found);
  EXPECT_EQ(found->seen, "HM had it; AK gave it on 2026-05-07 09:00.");
}

TEST_F(CustodyFindings, NothingHappensBeforeTheArrival) {
  hand("HM", "TB", "2026-05-03T09:00+02:00");
  const auto found = findings_of(*connection, sample);
  ASSERT_FALSE(found->empty());
  EXPECT_TRUE(std::any_of(found->begin(), found->end(), [](const auto& one) { return one.finding.rule == "before_arrival"; }));
}

TEST_F(CustodyFindings, APortionCutBeforeTheArrival) {
  ASSERT_TRUE(portions::cut(book, {sample, {}, "pan", figure("1 kg"), at("2026-05-03T09:00+02:00"), person, {}}).ok());
  ASSERT_TRUE(only("before_arrival"));
}

TEST_F(CustodyFindings, WhatTheCarrierDidBeforeTheArrivalIsInOrder) {
  enter(history::fields::consignment::carrier, "the post");
  ASSERT_TRUE(custody::hand_over(book, consignment,
                                 {"the mine", "the post", {}, at("2026-05-02T09:00+02:00"), {}, {}, {}, {}, {}, person})
                  .ok());
  EXPECT_FALSE(only(""));
}

TEST_F(CustodyFindings, OneMarkOnTwoBags) {
  const SampleId other = log_sample("larch adit N", "1 kg");
  EXPECT_TRUE(only("same_mark"));
  EXPECT_TRUE(only("same_mark", other));
  EXPECT_FALSE(only("", log_sample("Larch adit S", "1 kg")));
}

TEST_F(CustodyFindings, PiecesAreCounted) {
  enter(history::fields::consignment::pieces_declared, 3);
  EXPECT_FALSE(only("")) << "nobody has counted yet";
  enter(history::fields::consignment::pieces_found, 2);
  const auto found = only("pieces_missing");
  ASSERT_TRUE(found);
  EXPECT_EQ(found->seen, "26-C01: 3 pieces were declared, 2 found.");
  enter(history::fields::consignment::pieces_found, 3);
  EXPECT_FALSE(only(""));
}

TEST_F(CustodyFindings, GrossLessTareAgainstTheMassReceived) {
  ASSERT_TRUE(portions::set_gross_and_tare(book, sample, figure("4.1 kg"), figure("0.1 kg")).ok());
  EXPECT_FALSE(only(""));
  ASSERT_TRUE(portions::set_gross_and_tare(book, sample, figure("4.6 kg"), figure("0.1 kg")).ok());
  const auto found = only("net_mass_differs");
  ASSERT_TRUE(found);
  EXPECT_EQ(found->seen, "Gross 4.6 kg less tare 0.1 kg is 4.5 kg; 4 kg stands as received.");
}

TEST_F(CustodyFindings, GrossLessTareToTheLastDigits) {
  ASSERT_TRUE(portions::set_gross_and_tare(book, sample, figure("4.100 kg"), figure("0.085 kg")).ok());
  const auto received = [&](const std::string& mass) {
    EXPECT_TRUE(portions::set_received_mass(book, sample, figure(mass), "weighed by itself").ok());
  };
  for (const char* weighed : {"4.015 kg", "4.010 kg", "4.020 kg", "4.0 kg"}) {
    received(weighed);
    EXPECT_FALSE(only("")) << weighed << ": a scale that moves by fives, or by tenths of a kilogram";
  }
  received("4.031 kg");
  const auto found = only("net_mass_differs");
  ASSERT_TRUE(found);
  EXPECT_EQ(found->severity, Severity::note);
  received("4.100 kg");
  EXPECT_EQ(only("net_mass_differs")->severity, Severity::caution) << "the bag was not taken off";
}

// 4.512 mg of gold of 100 g are 45.12 g/t.
TEST_F(CustodyFindings, AToldFigureThatStillStands) {
  fire_gold("4.512 mg");
  for (const char* said : {"45 g/t", "about 45", "45.1 g/t", "1.32 oz/st", "a good deal", "45 potatoes"})
    ASSERT_TRUE(custody::tell_figure(book, {sample, "gold", said, "Ada Fell", {}, person, {}}).ok());
  EXPECT_FALSE(only(""));
}

TEST_F(CustodyFindings, AToldFigureThatNoLongerStands) {
  fire_gold("4.512 mg");
  ASSERT_TRUE(custody::tell_figure(book, {sample, "gold", "47 g/t", "Ada Fell", {}, person, {}}).ok());
  const auto found = only("told_differs");
  ASSERT_TRUE(found);
  EXPECT_NE(found->seen.find("it stands at 45.1 g/t now"), std::string::npos) << found->seen;
}

TEST_F(CustodyFindings, FiguresThatAreDue) {
  enter(sample_fields::due, "2026-08-20T12:00:00.000+02:00");
  EXPECT_TRUE(only("overdue"));
  EXPECT_TRUE(findings_of(*connection, sample, at("2026-08-19T12:00Z"))->empty());
  EXPECT_TRUE(findings_of(*connection, sample)->empty()) << "a rule about now needs a now";
  ASSERT_TRUE(custody::set_tests_wanted(book, sample, "fire").ok());
  EXPECT_TRUE(only("overdue"));
  fire_gold("4.512 mg");
  EXPECT_FALSE(only(""));
}

TEST_F(CustodyFindings, WhatIsKeptTooLong) {
  enter(sample_fields::retain_until, "2026-08-20T12:00:00.000+02:00");
  EXPECT_TRUE(only("retention_over"));
  EXPECT_TRUE(findings_of(*connection, sample, at("2026-08-20T09:59Z"))->empty());
  enter(sample_fields::disposal, "returned");
  EXPECT_FALSE(only(""));
}

}  // namespace
}  // namespace prillbook::findings
