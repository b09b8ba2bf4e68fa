// SPDX-License-Identifier: GPL-3.0-or-later
// The board of all findings: what is looked at again after a change, and that it says what a fresh look says.
#include "core/findings/board.h"

#include <gtest/gtest.h>

#include "core/findings/scope.h"
#include "core/fire/lots.h"
#include "core/gravity/pan_test.h"
#include "core/history/fields.h"
#include "core/milling/machines.h"
#include "core/milling/steps.h"
#include "core/weighing/bead.h"
#include "tests/support/records.h"

namespace prillbook::findings {
namespace {

using testing_support::figure;
using testing_support::LabWithSample;

struct BoardTest : testing::Test, LabWithSample<> {
  Board board{*connection};
  std::vector<history::Change> last;

  BoardTest() {
    book.listen([this](const history::Written& written) {
      last = written.changes;
      EXPECT_TRUE(board.changed(written.changes).ok());
    });
    torn = arrived("torn bag", "4.55 kg", "4.10 kg", "torn");
    whole = arrived("whole bag", "4 kg", "4 kg", "sealed");
    EXPECT_TRUE(board.begin(clock.now()).ok());
    read_all();
  }
  SampleId torn, whole;

  SampleId arrived(const std::string& mark, const std::string& declared, const std::string& received,
                   const std::string& condition) {
    custody::NewSample fresh;
    fresh.consignment = consignment;
    fresh.mark = mark;
    fresh.condition = condition;
    fresh.mass_declared = figure(declared);
    fresh.mass_received = figure(received);
    return *custody::log_sample(book, fresh);
  }
  void read_all() {
    while (board.owed() > 0) ASSERT_TRUE(board.look_at(1).ok());
  }
  std::vector<std::string> rules(SampleId sample, Standing standing = Standing::open) {
    std::vector<std::string> names;
    for (const Noticed& one : listed(board, {BoardOrder::rule, standing, {}, "", sample})) names.emplace_back(one.rule);
    return names;
  }
  Finding finding(SampleId sample, const std::string& rule) {
    for (const OpenOrAnswered& one : *findings_of(*connection, sample))
      if (one.finding.rule == rule) return one.finding;
    ADD_FAILURE() << rule;
    return {};
  }
  void expect_as_fresh() {
    read_all();
    Board fresh(*connection);
    ASSERT_TRUE(fresh.begin(clock.now()).ok());
    ASSERT_TRUE(fresh.look_at(1000).ok());
    EXPECT_EQ(board.noticed(), fresh.noticed());
    for (const auto& [sample, noticed] : fresh.noticed()) {
      std::vector<std::string> alone, together;
      for (const OpenOrAnswered& one : *findings_of(*connection, sample, clock.now())) alone.push_back(one.finding.rule);
      for (const Noticed& one : noticed)
        if (one.standing != Standing::gone) together.emplace_back(one.rule);
      EXPECT_EQ(together, alone) << "sample " << sample.value;
    }
  }
  std::set<SampleId> reach() {
    lab::Settings settings;
    results::MachineBooks books(*connection, settings);
    return reach_of(*connection, books, last)->samples;
  }
  BeadId weighed_charge(SampleId of, const std::string& mass, PotId pot = {}) {
    const PortionId portion = *portions::cut(book, {of, {}, "fire", figure("30 g"), {}, person, {}});
    const auto charge = *fire::start_charge(book, {portion, {}, person, {}, {}, {}});
    if (pot) EXPECT_TRUE(readings::enter(book, history::fields::charge::pot, charge.charge.value, readings::cell_of(pot)).ok());
    EXPECT_TRUE(weighing::weigh(book, {charge.bead, "bead", figure(mass), balance, {}, person}).ok());
    return charge.bead;
  }
};

TEST_F(BoardTest, HoldsWhatEverySampleShows) {
  EXPECT_EQ(rules(torn), (std::vector<std::string>{"leaking_bag", "short_on_arrival"}));
  EXPECT_TRUE(rules(whole).empty());
  EXPECT_EQ(board.count(Standing::open), 2u);
  EXPECT_EQ(board.samples(), 3u);
}

TEST_F(BoardTest, AChangedRecordOwesItsOwnSampleALook) {
  ASSERT_TRUE(portions::set_received_mass(book, whole, figure("3.00 kg"), "weighed again").ok());
  EXPECT_EQ(board.owed(), 1u);
  ASSERT_TRUE(board.look_at(10).ok());
  EXPECT_EQ(rules(whole), std::vector<std::string>{"short_on_arrival"});
  weighed_charge(torn, "0.5 mg");
  EXPECT_EQ(board.owed(), 1u) << "portion, charge, bead and weighing belong to one sample";
  expect_as_fresh();
}

TEST_F(BoardTest, AnAnswerHoldsUntilTheEvidenceIsAnotherAndIsKeptThen) {
  ASSERT_TRUE(answer(book, finding(torn, "short_on_arrival"), "weighed with the box").ok());
  read_all();
  EXPECT_EQ(rules(torn), std::vector<std::string>{"leaking_bag"});
  EXPECT_EQ(rules(torn, Standing::explained), std::vector<std::string>{"short_on_arrival"});
  ASSERT_TRUE(portions::set_received_mass(book, torn, figure("4.00 kg"), "weighed again").ok());
  read_all();
  EXPECT_EQ(rules(torn), (std::vector<std::string>{"leaking_bag", "short_on_arrival"})) << "opened again";
  EXPECT_EQ(rules(torn, Standing::gone), std::vector<std::string>{"short_on_arrival"}) << "the answer is kept";
  ASSERT_TRUE(portions::set_received_mass(book, torn, figure("4.55 kg"), "weighed again").ok());
  read_all();
  EXPECT_EQ(rules(torn), std::vector<std::string>{"leaking_bag"}) << "what was seen is gone";
  const auto past = *past_answers(*connection, torn, *findings_of(*connection, torn));
  ASSERT_EQ(past.size(), 1u);
  EXPECT_EQ(past[0].answer.explanation, "weighed with the box");
  EXPECT_EQ(past[0].answer.who, "HM");
  expect_as_fresh();
}

TEST_F(BoardTest, ASettingIsOfEverySample) {
  ASSERT_TRUE(lab::set_setting(book, "receiving.short_mass_limit_pct", "50").ok());
  EXPECT_EQ(board.owed(), board.samples());
  read_all();
  EXPECT_EQ(rules(torn), std::vector<std::string>{"leaking_bag"});
  expect_as_fresh();
}

TEST_F(BoardTest, AMarkIsComparedWithTheOthersOfItsConsignment) {
  ASSERT_TRUE(readings::enter(book, history::fields::sample::mark, whole.value, std::string("torn bag")).ok());
  EXPECT_EQ(reach(), (std::set<SampleId>{sample, torn, whole}));
  read_all();
  EXPECT_EQ(rules(torn).back(), "short_on_arrival");
  EXPECT_EQ(rules(whole), std::vector<std::string>{"same_mark"});
  expect_as_fresh();
}

TEST_F(BoardTest, TheNextChargeInAPotIsLookedAtAgain) {
  const PotId pot = *fire::add_pot(book, "K4");
  const BeadId rich = weighed_charge(torn, "0.05 mg", pot);
  weighed_charge(whole, "0.06 mg", pot);
  read_all();
  EXPECT_EQ(std::count(rules(whole).begin(), rules(whole).end(), "pot_after_rich"), 0);
  const auto weighing = weighing::bead(*connection, rich)->weighings.front().id;
  ASSERT_TRUE(weighing::correct(book, weighing, figure("90 mg"), "misread").ok());
  EXPECT_EQ(reach(), (std::set<SampleId>{torn, whole}));
  read_all();
  const auto seen = rules(whole);
  EXPECT_EQ(std::count(seen.begin(), seen.end(), "pot_after_rich"), 1);
  expect_as_fresh();
}

TEST_F(BoardTest, TheRockBehindOnAMachineIsLookedAtAgain) {
  const MachineId crusher = *milling::add_machine(book, "jaw", "crusher");
  ASSERT_TRUE(milling::clean(book, {crusher, "brush", {}, person, {}, false, {}}).ok());
  for (const SampleId one : {torn, whole, sample}) {
    milling::NewStep step;
    step.sample = one;
    step.kind = "crush";
    step.machine = crusher;
    ASSERT_TRUE(milling::do_step(book, step).ok());
  }
  expect_as_fresh();
  weighed_charge(torn, "29 mg");
  EXPECT_EQ(reach(), (std::set<SampleId>{torn, whole, sample}));
  expect_as_fresh();
  ASSERT_TRUE(milling::clean(book, {crusher, "brush", {}, person, {}, false, {}}).ok());
  EXPECT_EQ(reach(), (std::set<SampleId>{torn, whole, sample}));
  expect_as_fresh();
  weighed_charge(sample, "0.1 mg");
  EXPECT_EQ(reach(), std::set<SampleId>{sample}) << "nothing went through behind it";
}

TEST_F(BoardTest, AStruckSampleLeavesTheBoard) {
  ASSERT_TRUE(readings::enter(book, history::fields::sample::struck, torn.value, std::int64_t{1}).ok());
  read_all();
  EXPECT_TRUE(rules(torn).empty());
  expect_as_fresh();
}

TEST_F(BoardTest, ListsBySeveritySampleAndRule) {
  arrived("again", "4.55 kg", "4.10 kg", "torn");
  read_all();
  const auto by = [&](BoardOrder order) { return listed(board, {order, Standing::open, {}, "", {}}); };
  ASSERT_EQ(by(BoardOrder::severity).size(), 4u);
  EXPECT_GE(by(BoardOrder::severity).front().severity, by(BoardOrder::severity).back().severity);
  EXPECT_GT(by(BoardOrder::sample).front().sample, by(BoardOrder::sample).back().sample);
  EXPECT_EQ(by(BoardOrder::rule).front().rule, "leaking_bag");
  EXPECT_EQ(listed(board, {BoardOrder::rule, Standing::open, {}, "Leaking", {}}).size(), 2u);
  EXPECT_EQ(listed(board, {BoardOrder::rule, Standing::open, Severity::stop, "", {}}).size(), 0u);
}

}  // namespace
}  // namespace prillbook::findings
