// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/results/sample_result.h"

#include <gtest/gtest.h>

#include "core/history/fields.h"
#include "tests/support/records.h"

namespace prillbook::results {
namespace {

using testing_support::figure;
using testing_support::LabWithSample;

struct SampleResultTest : testing::Test, LabWithSample<> {
  BeadId pan(const std::string& mass) { return gravity::start_pan_test(book, {*cut(mass, "pan"), {}, person, {}})->bead; }
  fire::StartedCharge fire(const std::string& mass, PortionId parent = {}) {
    return *fire::start_charge(book, {*cut(mass, "fire", parent), {}, person, {}, {}, {}});
  }
  void weigh(BeadId bead, const std::string& mass, const std::string& what = "bead") {
    const auto weighed = weighing::weigh(book, {bead, what, figure(mass), balance, {}, person});
    ASSERT_TRUE(weighed.ok()) << weighed.error().detail;
  }
  void fineness(BeadId bead, const std::string& permil) {
    ASSERT_TRUE(weighing::set_fineness(book, bead, "touchstone", figure(permil, Measure::fineness), {}).ok());
  }
  SampleResult result() {
    auto record = load_sample_record(*connection, sample);
    EXPECT_TRUE(record.ok());
    return compute(*record);
  }
};

// Common practice, no source: 1 kg and a 0.022 g bead are 22 g/t, at 75 % gold 16.5 g/t; 100 g and a 0.009 g bead are
// 90 g/t, at 50 % gold 45 g/t; the pan caught about 37 %.
TEST_F(SampleResultTest, PanAndFireSideBySide) {
  const BeadId pan_bead = pan("1 kg");
  weigh(pan_bead, "0.022 g");
  fineness(pan_bead, "750");
  const auto charge = fire("100 g");
  weigh(charge.bead, "0.009 g");
  fineness(charge.bead, "500");
  const SampleResult r = result();
  ASSERT_TRUE(r.leading_pan);
  EXPECT_NEAR(r.pan[0].grade->bead.g_t(), 22, 1e-9);
  EXPECT_NEAR(r.pan[0].grade->gold->g_t(), 16.5, 1e-9);
  EXPECT_NEAR(r.fire.gold.mean->g_t(), 45, 1e-9);
  ASSERT_TRUE(r.comparison) << (r.comparison_error ? r.comparison_error->detail : "");
  EXPECT_NEAR(*r.comparison->gold.recovery, 0.3667, 1e-4);
  EXPECT_EQ(r.comparison->gold.verdict, Verdict::gold_left_behind);
  EXPECT_EQ(r.comparison->basis, VerdictBasis::weighing);
}

TEST_F(SampleResultTest, WithoutFinenessThereIsNoGoldToCompare) {
  weigh(pan("1 kg"), "0.022 g");
  const SampleResult r = result();
  EXPECT_EQ(r.pan[0].state, TestState::done);
  EXPECT_FALSE(r.pan[0].grade->gold);
  EXPECT_FALSE(r.leading_pan);
  EXPECT_FALSE(r.comparison);
}

TEST_F(SampleResultTest, SpoiledChargesAreListedAndNotAveraged) {
  const auto spoiled = fire("30 g"), good = fire("30 g");
  weigh(good.bead, "0.3 mg");
  fineness(good.bead, "900");
  ASSERT_TRUE(fire::set_spoiled(book, spoiled.charge, "boiled over").ok());
  const SampleResult r = result();
  ASSERT_EQ(r.fire.tests.size(), 2u);
  EXPECT_EQ(r.fire.tests[0].state, TestState::spoiled);
  EXPECT_EQ(r.fire.tests[0].reason, "boiled over");
  EXPECT_EQ(r.fire.gold.valid, 1);
  EXPECT_NEAR(r.fire.gold.mean->g_t(), 9, 1e-9);
}

TEST_F(SampleResultTest, PartedGoldComesFromItsWeighings) {
  const auto charge = fire("30 g");
  weigh(charge.bead, "0.400 mg");
  weigh(charge.bead, "0.300 mg", "gold");
  ASSERT_TRUE(weighing::set_fineness(book, charge.bead, "parted", {}, {}).ok());
  const SampleResult r = result();
  EXPECT_NEAR(r.fire.gold.mean->g_t(), 10, 1e-9);
  EXPECT_NEAR(r.fire.silver.mean->g_t(), 0.1 / 30 * 1000, 1e-9);
}

TEST_F(SampleResultTest, NoneSeenHasAnUpperLimit) {
  const auto charge = fire("30 g");
  ASSERT_TRUE(weighing::set_none_seen(book, charge.bead, true).ok());
  const SampleResult r = result();
  ASSERT_TRUE(r.fire.gold.mean);
  EXPECT_EQ(r.fire.gold.mean->g_t(), 0);
  ASSERT_TRUE(r.fire.gold.mean->hi);
  EXPECT_GT(*r.fire.gold.mean->hi, Grade());
}

TEST_F(SampleResultTest, TailAndRemainderGiveTheCalculatedHead) {
  const auto portion = cut("1 kg", "pan");
  const auto test = gravity::start_pan_test(book, {*portion, {}, person, {}});
  weigh(test->bead, "10 mg");
  fineness(test->bead, "1000");
  const auto remainder = gravity::weigh_product(book, test->test, "remainder", figure("20 g"), person);
  const auto tail = gravity::weigh_product(book, test->test, "tail", figure("970 g"), person);
  const auto head = fire("100 g"), of_remainder = fire("10 g", *remainder), of_tail = fire("100 g", *tail);
  weigh(head.bead, "2 mg");
  fineness(head.bead, "1000");
  weigh(of_remainder.bead, "1 mg");
  fineness(of_remainder.bead, "1000");
  weigh(of_tail.bead, "0.5 mg");
  fineness(of_tail.bead, "1000");
  const SampleResult r = result();
  EXPECT_EQ(r.fire.tests.size(), 1u) << "assays of what the pan left are no assays of the rock";
  ASSERT_TRUE(r.comparison && r.comparison->balance) << (r.comparison_error ? r.comparison_error->detail : "");
  // 10 mg + 100 g/t x 20 g + 5 g/t x 970 g = 10 + 2 + 4.85 mg in 1 kg
  EXPECT_NEAR(r.comparison->balance->calculated_head.g_t(), 16.85, 1e-9);
  EXPECT_NEAR(*r.comparison->balance->gravity_recovery, 12 / 16.85, 1e-9);
}

TEST_F(SampleResultTest, AGrainSizeBringsSamplingIntoTheVerdict) {
  const auto portion = cut("1 kg", "pan");
  const auto test = gravity::start_pan_test(book, {*portion, {}, person, {}});
  weigh(test->bead, "22 mg");
  fineness(test->bead, "750");
  ASSERT_TRUE(readings::enter(book, history::fields::pan_test::largest_colour, test->test.value,
                              readings::cell_of(readings::Figure{figure("1 mm", Measure::opening)}))
                  .ok());
  const auto charge = fire("100 g");
  weigh(charge.bead, "9 mg");
  fineness(charge.bead, "500");
  const SampleResult r = result();
  ASSERT_TRUE(r.comparison);
  EXPECT_EQ(r.comparison->basis, VerdictBasis::weighing_and_sampling);
  EXPECT_EQ(r.comparison->gold.verdict, Verdict::no_gap_shown) << "one grain of 1 mm is 10 mg";
}

TEST_F(SampleResultTest, ContradictionsAreSaidNotComputed) {
  const auto charge = fire("30 g");
  weigh(charge.bead, "0.3 mg");
  fineness(charge.bead, "900");
  ASSERT_TRUE(readings::enter(book, history::fields::charge::collector, charge.charge.value,
                              readings::cell_of(readings::Figure{figure("2 mg")}))
                  .ok());
  const SampleResult r = result();
  EXPECT_EQ(r.fire.tests[0].state, TestState::refused) << "a touchstone says nothing of a bead with collector silver";
  EXPECT_EQ(r.fire.tests[0].error->code, ErrorCode::conflict);
}

}  // namespace
}  // namespace prillbook::results
