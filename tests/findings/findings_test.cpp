// SPDX-License-Identifier: GPL-3.0-or-later
#include <gtest/gtest.h>

#include "core/findings/finding.h"
#include "core/findings/statements.h"
#include "core/history/fields.h"
#include "tests/support/records.h"

namespace prillbook::findings {
namespace {

using testing_support::figure;
using testing_support::LabWithSample;

struct FindingsTest : testing::Test, LabWithSample<> {
  SampleId arrived(const std::string& declared, const std::string& received, const std::optional<std::string>& condition) {
    custody::NewSample fresh;
    fresh.consignment = consignment;
    fresh.mark = "A";
    fresh.condition = condition;
    fresh.mass_declared = figure(declared);
    fresh.mass_received = figure(received);
    return *custody::log_sample(book, fresh);
  }
  std::vector<std::string> rules_for(SampleId id) {
    std::vector<std::string> names;
    const auto found = findings_of(*connection, id);
    EXPECT_TRUE(found.ok());
    for (const OpenOrAnswered& one : *found) names.push_back(one.finding.rule + (one.answer ? " answered" : ""));
    return names;
  }
};

TEST_F(FindingsTest, AWholeBagIsNoFinding) { EXPECT_TRUE(rules_for(arrived("4 kg", "3.95 kg", "sealed")).empty()); }

TEST_F(FindingsTest, ALeakingBagThatCameShort) {
  EXPECT_EQ(rules_for(arrived("4.55 kg", "4.10 kg", "torn")), (std::vector<std::string>{"short_on_arrival", "leaking_bag"}));
}

TEST_F(FindingsTest, AFigureTypedWithoutAUnitIsToldWithIt) {
  const auto found = findings_of(*connection, arrived("4550", "4100 g", "sealed"));
  ASSERT_TRUE(found.ok() && found->size() == 1);
  EXPECT_EQ(found->front().finding.seen, "4550 g were declared and 4100 g received: 9.9 % is missing.");
  EXPECT_EQ(found->front().finding.evidence.front().figure, "4550 g");
}

TEST_F(FindingsTest, WhatIsTreatedApartAsksHowAndWhatWasRefusedMayNotBeCut) {
  namespace sample_fields = history::fields::sample;
  const SampleId id = arrived("2 kg", "2 kg", "sealed");
  const auto mark = [&](const char* treatment) {
    return book.record("test", [&](history::ChangeSet& set) -> Result<void> {
      PRILLBOOK_TRY(set.set(sample_fields::treatment, id.value, std::string(treatment)));
      return set.set(sample_fields::treatment_reason, id.value, std::string("smells of garlic"));
    });
  };
  ASSERT_TRUE(mark("none").ok());
  EXPECT_TRUE(rules_for(id).empty());
  ASSERT_TRUE(mark("treat_apart").ok());
  EXPECT_EQ(rules_for(id), std::vector<std::string>{"treated_apart"});
  ASSERT_TRUE(mark("refuse").ok());
  EXPECT_TRUE(rules_for(id).empty()) << "refused and left alone";
  ASSERT_TRUE(portions::cut(book, {id, {}, "pan", figure("500 g"), {}, {}, {}}).ok());
  const auto found = findings_of(*connection, id);
  ASSERT_EQ(found->size(), 1u);
  EXPECT_EQ(found->front().finding.seen, "The sample was to be refused (smells of garlic), yet 1 portion was cut from it.");
}

TEST_F(FindingsTest, AnAnswerHoldsUntilTheEvidenceChanges) {
  const SampleId id = arrived("4.55 kg", "4.10 kg", "sealed");
  const auto open = findings_of(*connection, id);
  ASSERT_EQ(open->size(), 1u);
  EXPECT_EQ(answer(book, open->front().finding, "  ").error().code, ErrorCode::missing_key);
  ASSERT_TRUE(answer(book, open->front().finding, "the client weighed it with the box").ok());
  const auto answered = findings_of(*connection, id);
  ASSERT_TRUE(answered->front().answer);
  EXPECT_EQ(answered->front().answer->who, "HM");
  ASSERT_TRUE(portions::set_received_mass(book, id, figure("4.00 kg"), "weighed again").ok());
  EXPECT_EQ(rules_for(id), std::vector<std::string>{"short_on_arrival"}) << "new evidence opens the finding again";
}

struct PanAndFire : FindingsTest {
  void test(const std::string& pan_mg, const std::string& fire_mg, const std::string& largest_colour = "") {
    const auto pan = gravity::start_pan_test(book, {*cut("1 kg", "pan"), {}, person, {}});
    const auto charge = fire::start_charge(book, {*cut("100 g", "fire"), {}, person, {}, {}, {}});
    for (const auto& [bead, mass] : {std::pair{pan->bead, pan_mg}, std::pair{charge->bead, fire_mg}}) {
      ASSERT_TRUE(weighing::weigh(book, {bead, "bead", figure(mass), balance, {}, person}).ok());
      ASSERT_TRUE(weighing::set_fineness(book, bead, "touchstone", figure("800", Measure::fineness), {}).ok());
    }
    if (largest_colour.empty()) return;
    ASSERT_TRUE(readings::enter(book, history::fields::pan_test::largest_colour, pan->test.value,
                                readings::cell_of(readings::Figure{figure(largest_colour, Measure::opening)}))
                    .ok());
  }
};

TEST_F(PanAndFire, GoldLeftBehind) {
  test("20 mg", "6 mg");
  EXPECT_EQ(rules_for(sample), std::vector<std::string>{"gold_left_behind"});
}

TEST_F(PanAndFire, AGapWithinTheUncertaintyIsNoFinding) {
  test("20 mg", "2.05 mg");
  EXPECT_TRUE(rules_for(sample).empty());
}

TEST_F(PanAndFire, PanAboveFireIsACautionWhileSamplingIsNotJudged) {
  test("60 mg", "2 mg");
  const auto found = findings_of(*connection, sample);
  ASSERT_EQ(found->size(), 1u);
  EXPECT_EQ(found->front().finding.rule, "pan_above_fire");
  EXPECT_EQ(found->front().finding.severity, Severity::caution);
}

TEST_F(PanAndFire, PanAboveFireIsAStopBeyondSampling) {
  test("60 mg", "2 mg", "100 um");
  EXPECT_EQ(findings_of(*connection, sample)->front().finding.severity, Severity::stop);
}

TEST(Statements, AllCompile) {
  const auto connection = store::Connection::in_memory().value();
  for (const store::Sql* statement : sql::all) EXPECT_TRUE(connection->prepare_only(*statement).ok()) << statement->name;
}

}  // namespace
}  // namespace prillbook::findings
