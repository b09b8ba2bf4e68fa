// SPDX-License-Identifier: GPL-3.0-or-later
// Controls of furnace loads: how each is judged, what a decision does, charts and pairs.
#include "core/results/run_controls.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "core/fire/runs.h"
#include "core/history/fields.h"
#include "core/milling/machines.h"
#include "core/results/quality_beside.h"
#include "tests/support/quality_bench.h"

namespace prillbook::results {
namespace {

using controls::Role;
using testing_support::figure;
using testing_support::QualityBench;
namespace material_fields = history::fields::control_material;

struct RunControlsTest : testing::Test, QualityBench {
  FurnaceRunId run = *fire::start_run(book, {"fusion 1", "fusion", person});

  RunControls judged() {
    TestReader reader = TestReader::open(*connection).value();
    return run_controls(reader, run).value();
  }
  ControlVerdict verdict(std::size_t place = 0) { return judged().controls.at(place).verdict; }
  RunStanding standing() { return judged().standing; }
  ControlChart chart(ControlMaterialId id) {
    TestReader reader = TestReader::open(*connection).value();
    return control_chart(reader, *controls::material(*connection, id), {}, 50).value();
  }
};

TEST_F(RunControlsTest, ARockBlankByItsGold) {
  const ControlMaterialId quartz = add_material("quartz", "blank_rock");
  const auto blank = of_stock(quartz, "50 g", run);
  EXPECT_EQ(verdict(), ControlVerdict::waiting);
  EXPECT_EQ(standing(), RunStanding::waiting);
  weigh(blank.bead, "0.004 mg");
  EXPECT_EQ(verdict(), ControlVerdict::within) << "0.08 g/t of metal in all";
  const auto second = of_stock(quartz, "50 g", run);
  weigh(second.bead, "0.020 mg");
  EXPECT_EQ(verdict(1), ControlVerdict::waiting) << "its gold is not known";
  weigh(second.bead, "0.012 mg", "gold");
  EXPECT_EQ(verdict(1), ControlVerdict::outside) << "0.24 g/t, and 0.1 is let pass";
  EXPECT_THAT(judged().controls[1].found, testing::StartsWith("0.240 ± "));
  EXPECT_EQ(judged().controls[1].allowed, "at most 0.1 g/t");
  EXPECT_EQ(standing(), RunStanding::outside);
}

TEST_F(RunControlsTest, NoBeadSeenIsWithin) {
  const auto blank = of_stock(add_material("quartz", "blank_rock"), "50 g", run);
  ASSERT_TRUE(weighing::set_none_seen(book, blank.bead, true).ok());
  EXPECT_EQ(verdict(), ControlVerdict::within);
  EXPECT_EQ(judged().controls[0].found, "no bead seen");
}

TEST_F(RunControlsTest, AFluxBlankByMass) {
  const auto blank = of_stock(add_material("flux", "blank_flux", ""), "", run);
  weigh(blank.bead, "0.310 mg");
  EXPECT_EQ(verdict(), ControlVerdict::waiting);
  weigh(blank.bead, "0.004 mg", "gold");
  EXPECT_EQ(verdict(), ControlVerdict::within);
  EXPECT_EQ(judged().controls[0].found, "0.0040 mg gold");
  const auto richer = of_stock(controls::materials(*connection)->front().id, "", run);
  weigh(richer.bead, "0.310 mg");
  weigh(richer.bead, "0.009 mg", "gold");
  EXPECT_EQ(verdict(1), ControlVerdict::outside);
}

TEST_F(RunControlsTest, TheSilverOfAFluxBlankGoesToItsLot) {
  const LotId litharge = *fire::add_lot(book, "litharge 7", "litharge");
  const auto blank = of_stock(add_material("flux", "blank_flux", ""), "", run);
  EXPECT_EQ(take_lot_silver(book, blank.charge).error().field, "charge.litharge");
  ASSERT_TRUE(fire::set_lot(book, blank.charge, history::fields::charge::litharge_lot, litharge).ok());
  ASSERT_TRUE(fire::set_reagent(book, blank.charge, history::fields::charge::litharge, figure("60 g")).ok());
  EXPECT_EQ(take_lot_silver(book, blank.charge).error().field, "charge.bead");
  weigh(blank.bead, "1.200 mg");
  weigh(blank.bead, "0.003 mg", "gold");
  ASSERT_TRUE(take_lot_silver(book, blank.charge).ok());
  EXPECT_NEAR(fire::lot(*connection, litharge)->silver->grade().in(unit::gram_per_tonne), 1.197 / 0.060, 1e-3);
}

// Certified 5.00 g/t with 0.20 g/t stated for single charges: 5.5 warns, 5.7 is outside.
TEST_F(RunControlsTest, AReferenceByItsRules) {
  const ControlMaterialId pulp = reference("5.00 g/t", "0.20 g/t");
  gold_of(of_stock(pulp, "30 g", run), "0.150 mg");
  EXPECT_EQ(verdict(), ControlVerdict::within);
  gold_of(of_stock(pulp, "30 g", run), "0.165 mg");
  EXPECT_EQ(verdict(1), ControlVerdict::warning);
  gold_of(of_stock(pulp, "30 g", run), "0.171 mg");
  EXPECT_EQ(verdict(2), ControlVerdict::outside);
  ASSERT_EQ(judged().controls[2].alarms.size(), 2u);
  EXPECT_EQ(judged().controls[2].alarms[0].rule, "1-3s");
  EXPECT_EQ(judged().controls[2].alarms[1].rule, "2-2s") << "two running beyond the same 2 s";
  EXPECT_EQ(verdict(1), ControlVerdict::warning) << "as it was when it was made up";
  EXPECT_EQ(judged().controls[0].allowed, "5.00 ± 0.60 g/t, 3 s");
}

TEST_F(RunControlsTest, NelsonsRulesWhereTheLabHasSetThem) {
  ASSERT_TRUE(lab::set_setting(book, "quality.control_rules", "nelson").ok());
  const ControlMaterialId pulp = reference("5.00 g/t", "0.20 g/t");
  for (int i = 0; i < 9; ++i) gold_of(of_stock(pulp, "30 g", run), i % 2 ? "0.152 mg" : "0.153 mg");
  EXPECT_EQ(verdict(7), ControlVerdict::within);
  EXPECT_EQ(verdict(8), ControlVerdict::outside);
  EXPECT_EQ(judged().controls[8].alarms.at(0).rule, "Nelson 2");
}

TEST_F(RunControlsTest, TheLimitsSayWhereTheyComeFrom) {
  const ControlMaterialId pulp = reference("5.00 g/t", "");
  gold_of(of_stock(pulp, "30 g", run), "0.150 mg");
  EXPECT_EQ(chart(pulp).limits->origin, SpreadOrigin::setting);
  EXPECT_NEAR(chart(pulp).limits->sd, 0.25, 1e-9) << "5 % of its gold";
  for (const char* gold : {"0.151 mg", "0.149 mg", "0.152 mg", "0.148 mg", "0.150 mg", "0.153 mg", "0.149 mg"})
    gold_of(of_stock(pulp, "30 g", run), gold);
  EXPECT_EQ(chart(pulp).limits->origin, SpreadOrigin::own_results) << "eight of the lab’s own";
  EXPECT_LT(chart(pulp).limits->sd, 0.1);
  EXPECT_TRUE(chart(pulp).limits->certified);
}

TEST_F(RunControlsTest, WithoutAValueNothingIsJudgedUntilEightResults) {
  const ControlMaterialId own = add_material("own pulp", "reference");
  for (int i = 0; i < 7; ++i) gold_of(of_stock(own, "30 g", run), "0.150 mg");
  EXPECT_EQ(verdict(6), ControlVerdict::not_judged);
  EXPECT_FALSE(gold_bias(chart(own))) << "nothing to set it against";
  gold_of(of_stock(own, "30 g", run), "0.153 mg");
  EXPECT_EQ(verdict(7), ControlVerdict::within);
  EXPECT_FALSE(chart(own).limits->certified);
}

// zeta and En of ISO 13528 (from memory): mean 5.1, certified 5.00 with expanded uncertainty 0.12.
TEST_F(RunControlsTest, BiasOfTheMean) {
  const ControlMaterialId pulp = reference("5.00 g/t", "0.20 g/t", "0.12 g/t", "expanded");
  for (const char* gold : {"0.150 mg", "0.153 mg", "0.156 mg"}) gold_of(of_stock(pulp, "30 g", run), gold);
  const MetalBias bias = *gold_bias(chart(pulp));
  EXPECT_EQ(bias.n, 3u);
  EXPECT_NEAR(bias.mean, 5.1, 1e-9);
  EXPECT_NEAR(*bias.u_mean, 0.1 / std::sqrt(3.0), 1e-9);
  EXPECT_NEAR(*bias.bias.zeta, 0.1 / std::hypot(0.1 / std::sqrt(3.0), 0.06), 1e-9);
  EXPECT_NEAR(*bias.bias.en, *bias.bias.zeta / 2, 1e-12);
  EXPECT_FALSE(silver_bias(chart(pulp)));
}

TEST_F(RunControlsTest, AReferenceWithoutUncertaintyHasNoScore) {
  const ControlMaterialId pulp = reference("5.00 g/t", "0.20 g/t");
  gold_of(of_stock(pulp, "30 g", run), "0.150 mg");
  ASSERT_TRUE(gold_bias(chart(pulp)));
  EXPECT_FALSE(gold_bias(chart(pulp))->bias.en);
}

TEST_F(RunControlsTest, DuplicatesByTheirKind) {
  const auto first = charge("30 g", run), second = charge("30 g", run);
  gold_of(first, "0.150 mg");
  ASSERT_TRUE(controls::set_duplicate(book, second.charge, first.charge, Role::duplicate_pulp).ok());
  EXPECT_EQ(verdict(), ControlVerdict::waiting);
  gold_of(second, "0.180 mg");
  EXPECT_EQ(verdict(), ControlVerdict::outside) << "18 % apart, 10 are let pass";
  EXPECT_EQ(judged().controls[0].name, "26-0001/1");
  ASSERT_TRUE(controls::set_duplicate(book, second.charge, first.charge, Role::duplicate_coarse).ok());
  EXPECT_EQ(verdict(), ControlVerdict::within);
}

TEST_F(RunControlsTest, WhatTheBalancePartsIsNoFault) {
  const auto first = charge("30 g", run), second = charge("30 g", run);
  ASSERT_TRUE(controls::set_duplicate(book, second.charge, first.charge, Role::duplicate_pulp).ok());
  const readings::Figure repeatability = figure("0.002 mg");
  ASSERT_TRUE(
      readings::enter(book, history::fields::balance::repeatability, balance.value, readings::cell_of(repeatability)).ok());
  gold_of(first, "0.010 mg");
  gold_of(second, "0.013 mg");
  EXPECT_EQ(verdict(), ControlVerdict::within) << "26 % apart, which this balance can’t tell";
}

TEST_F(RunControlsTest, AnAcceptanceStandsForWhatItWasGivenOn) {
  const auto blank = of_stock(add_material("quartz", "blank_rock"), "50 g", run);
  weigh(blank.bead, "0.002 mg");
  ASSERT_TRUE(decide_run(book, run, "accepted", "", person).ok());
  EXPECT_EQ(standing(), RunStanding::accepted);
  weigh(blank.bead, "0.060 mg");
  ASSERT_TRUE(weighing::set_fineness(book, blank.bead, "touchstone", figure("900", Measure::fineness), {}).ok());
  EXPECT_EQ(standing(), RunStanding::outside);
  EXPECT_TRUE(judged().changed_since);
  EXPECT_EQ(decide_run(book, run, "accepted", "", person).error().field, "run_decision.reason");
  ASSERT_TRUE(decide_run(book, run, "accepted", "the samples hold a hundred times as much", person).ok());
  EXPECT_EQ(standing(), RunStanding::accepted);
  ASSERT_TRUE(decide_run(book, run, "held", "on second thoughts", person).ok());
  EXPECT_EQ(standing(), RunStanding::held);
  ASSERT_TRUE(book.undo().ok());
  EXPECT_EQ(standing(), RunStanding::accepted);
}

TEST_F(RunControlsTest, ResultsCarryTheStateOfTheirLoad) {
  gold_of(charge("30 g", run), "0.150 mg");
  const auto result = [&] { return compute(*load_sample_record(*connection, sample)); };
  EXPECT_TRUE(result().fire.tests[0].held.empty());
  ASSERT_TRUE(decide_run(book, run, "held", "blank high", person).ok());
  EXPECT_THAT(result().fire.tests[0].held, testing::ElementsAre("fusion 1: blank high"));
  EXPECT_TRUE(result().fire.gold.mean) << "held is not left out";
  ASSERT_TRUE(decide_run(book, run, "repeated", "blank high", person).ok());
  EXPECT_EQ(result().fire.tests[0].state, TestState::excluded);
  EXPECT_EQ(result().fire.tests[0].reason, "the load is repeated, fusion 1: blank high");
  EXPECT_FALSE(result().fire.gold.mean);
}

TEST_F(RunControlsTest, AFlushAssayGoesToItsCleaning) {
  const MachineId crusher = *milling::add_machine(book, "jaw crusher", "crusher");
  const CleaningId flushed = *milling::clean(book, {crusher, "flush", {}, {}, figure("500 g"), true, {}});
  const auto assay = of_stock(add_material("quartz", "blank_rock"), "50 g", run);
  ASSERT_TRUE(controls::set_flush(book, assay.charge, flushed).ok());
  EXPECT_EQ(take_flush_assay(book, assay.charge).error().code, ErrorCode::missing_key);
  weigh(assay.bead, "0.135 mg");
  weigh(assay.bead, "0.100 mg", "gold");
  EXPECT_EQ(verdict(), ControlVerdict::not_judged) << "it tells of a machine, not of the load";
  ASSERT_TRUE(take_flush_assay(book, assay.charge).ok());
  EXPECT_NEAR(milling::cleaning(*connection, flushed)->flush_grade->grade().in(unit::gram_per_tonne), 2, 1e-9);
}

TEST_F(RunControlsTest, PairsOfChargesAndOfPanTests) {
  const auto first = charge("30 g", run), second = charge("30 g", run);
  gold_of(first, "0.150 mg");
  gold_of(second, "0.153 mg");
  ASSERT_TRUE(controls::set_duplicate(book, second.charge, first.charge, Role::duplicate_pulp).ok());
  const auto pan = *gravity::start_pan_test(book, {*cut("900 g", "pan"), {}, person, {}});
  const auto again = *gravity::start_pan_test(book, {*cut("900 g", "pan"), {}, person, {}});
  ASSERT_TRUE(controls::set_duplicate(book, again.test, pan.test, Role::duplicate_coarse).ok());
  TestReader reader = TestReader::open(*connection).value();
  const auto pairs = *duplicate_pairs(reader, 10);
  ASSERT_EQ(pairs.size(), 2u);
  EXPECT_EQ(pairs[0].second.label, "26-0001/2");
  EXPECT_NEAR(*pairs[0].apart_pct, 200 * 3 / 303.0, 1e-9);
  EXPECT_EQ(pairs[1].verdict, ControlVerdict::waiting);
  EXPECT_EQ(gold_pairs(pairs).size(), 1u);
}

TEST_F(RunControlsTest, AnExcludedControlIsNotJudged) {
  const auto blank = of_stock(add_material("quartz", "blank_rock"), "50 g", run);
  weigh(blank.bead, "0.060 mg");
  weigh(blank.bead, "0.050 mg", "gold");
  ASSERT_TRUE(fire::set_spoiled(book, blank.charge, "pot cracked").ok());
  EXPECT_EQ(verdict(), ControlVerdict::not_judged);
  EXPECT_EQ(judged().controls[0].found, "pot cracked");
}

TEST_F(RunControlsTest, TheStockOfAControlHasNoQualityOfItsOwn) {
  const ControlMaterialId quartz = add_material("quartz", "blank_rock");
  gold_of(of_stock(quartz, "50 g", run), "0.050 mg");
  const SampleId stock = controls::material(*connection, quartz)->stock;
  EXPECT_TRUE(quality_beside(*connection, *load_sample_record(*connection, stock))->runs.empty());
  gold_of(charge("30 g", run), "0.150 mg");
  EXPECT_EQ(quality_beside(*connection, *load_sample_record(*connection, sample))->runs.size(), 1u);
}

}  // namespace
}  // namespace prillbook::results
