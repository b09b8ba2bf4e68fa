// SPDX-License-Identifier: GPL-3.0-or-later
// The board where one sample speaks for others: controls of a load, duplicates, what stands on a tray.
#include <gtest/gtest.h>

#include "core/findings/board.h"
#include "core/fire/runs.h"
#include "tests/support/quality_bench.h"

namespace prillbook::findings {
namespace {

namespace of_charge = history::fields::charge;
using testing_support::QualityBench;

struct QualityBoard : testing::Test, QualityBench {
  FurnaceRunId run = *fire::start_run(book, {"fusion 1", "fusion", person});
  fire::StartedCharge client = charge("30 g", run);
  Board board{*connection};

  QualityBoard() {
    gold_of(client, "0.150 mg");
    EXPECT_TRUE(board.begin(clock.now()).ok());
    book.listen([this](const history::Written& written) { EXPECT_TRUE(board.changed(written.changes).ok()); });
  }
  void read_all() {
    while (board.owed() > 0) ASSERT_TRUE(board.look_at(8).ok());
  }
  bool shows(const std::string& rule) {
    read_all();
    Board fresh(*connection);
    EXPECT_TRUE(fresh.begin(clock.now()).ok());
    EXPECT_TRUE(fresh.look_at(1000).ok());
    EXPECT_EQ(board.noticed(), fresh.noticed()) << "as a fresh look";
    const auto list = listed(board, {BoardOrder::rule, Standing::open, {}, rule_in_words(rule), sample});
    return !list.empty();
  }
  void move(const fire::StartedCharge& what, FurnaceRunId to) {
    ASSERT_TRUE(readings::enter(book, of_charge::fusion_run, what.charge.value, to.value).ok());
  }
};

TEST_F(QualityBoard, AControlSpeaksForItsLoad) {
  const auto blank = of_stock(add_material("quartz", "blank_rock"), "50 g", run);
  weigh(blank.bead, "0.020 mg");
  EXPECT_FALSE(shows("blank_outside")) << "its gold is not known yet";
  weigh(blank.bead, "0.012 mg", "gold");
  EXPECT_TRUE(shows("blank_outside"));
  const FurnaceRunId other = *fire::start_run(book, {"fusion 2", "fusion", person});
  move(blank, other);
  EXPECT_FALSE(shows("blank_outside")) << "it was in another load";
  move(client, other);
  EXPECT_TRUE(shows("blank_outside"));
}

TEST_F(QualityBoard, ADecisionIsOfTheWholeLoad) {
  EXPECT_FALSE(shows("run_held"));
  ASSERT_TRUE(results::decide_run(book, run, "held", "the slag kept its lead", person).ok());
  EXPECT_TRUE(shows("run_held"));
  ASSERT_TRUE(results::decide_run(book, run, "repeated", "the slag kept its lead", person).ok());
  EXPECT_FALSE(shows("run_held"));
}

TEST_F(QualityBoard, TheValueOfAReferenceReachesItsLoads) {
  const ControlMaterialId pulp = reference("5.00 g/t", "0.20 g/t");
  gold_of(of_stock(pulp, "30 g", run), "0.150 mg");
  EXPECT_FALSE(shows("reference_outside"));
  enter_grade(history::fields::control_material::gold, pulp, "6.50 g/t");
  EXPECT_TRUE(shows("reference_outside"));
}

TEST_F(QualityBoard, AFieldDuplicateReachesTheOther) {
  const SampleId first = sample;
  sample = log_sample("Larch adit N, again", "2 kg");
  const auto second = charge("30 g");
  gold_of(second, "0.151 mg");
  ASSERT_TRUE(controls::set_duplicate(book, second.charge, client.charge, controls::Role::duplicate_field).ok());
  EXPECT_FALSE(shows("duplicate_outside"));
  const WeighingId weighed = weighing::bead(*connection, second.bead)->weighings.back().id;
  ASSERT_TRUE(weighing::correct(book, weighed, testing_support::figure("0.100 mg"), "misread").ok());
  EXPECT_TRUE(shows("duplicate_outside"));
  sample = first;
  EXPECT_TRUE(shows("duplicate_outside"));
}

TEST_F(QualityBoard, AControlThatIsLostCountsNoMoreForTheChargesAfterIt) {
  ASSERT_TRUE(lab::set_setting(book, "quality.blank_one_in", "3").ok());
  const ControlMaterialId quartz = add_material("quartz", "blank_rock");
  of_stock(quartz, "50 g", run);
  for (int i = 0; i < 3; ++i) charge("30 g");
  const auto blank = of_stock(quartz, "50 g", run);
  sample = log_sample("Larch adit S", "2 kg");
  charge("30 g");
  EXPECT_FALSE(shows("insertion_overdue"));
  ASSERT_TRUE(readings::enter(book, of_charge::spoiled, blank.charge.value, std::string("spilled")).ok());
  EXPECT_TRUE(shows("insertion_overdue"));
}

}  // namespace
}  // namespace prillbook::findings
