// SPDX-License-Identifier: GPL-3.0-or-later
// What the notebook notices at the furnace, each with the case where it keeps quiet.
#include <gtest/gtest.h>

#include "core/findings/finding.h"
#include "core/fire/lots.h"
#include "core/history/fields.h"
#include "tests/support/records.h"

namespace prillbook::findings {
namespace {

using testing_support::figure;
using testing_support::LabWithSample;
namespace charge_fields = history::fields::charge;
namespace bead_fields = history::fields::bead;

struct FurnaceFindings : testing::Test, LabWithSample<> {
  fire::StartedCharge started = *fire::start_charge(book, {*cut("20 g", "fire"), {}, person, {}, {}, {}});

  void enter(const history::Field& field, RecordId record, const std::string& mass) {
    const auto measure = field.measure.value_or(Measure::mass);
    ASSERT_TRUE(readings::enter(book, field, record, readings::cell_of(readings::Figure{figure(mass, measure)})).ok());
  }
  void enter(const history::Field& field, const std::string& mass) { enter(field, started.charge.value, mass); }
  void weigh(BeadId bead, const std::string& mass, std::string_view what = weighing::of_bead) {
    const weighing::NewWeighing fresh{bead, std::string(what), figure(mass), balance, {}, person};
    ASSERT_TRUE((what == weighing::of_gold ? weighing::weigh_parted(book, fresh) : weighing::weigh(book, fresh)).ok());
  }
  std::optional<Finding> seen(const std::string& rule) {
    const auto found = findings_of(*connection, sample);
    EXPECT_TRUE(found.ok());
    for (const OpenOrAnswered& one : *found)
      if (one.finding.rule == rule) {
        for (const std::string* said : {&one.finding.seen, &one.finding.why, &one.finding.to_do, &one.finding.source})
          EXPECT_FALSE(said->empty()) << rule;
        EXPECT_FALSE(one.finding.evidence.empty()) << rule;
        return one.finding;
      }
    return std::nullopt;
  }
};

TEST_F(FurnaceFindings, ButtonOutOfRange) {
  enter(charge_fields::button, "18 g");
  EXPECT_FALSE(seen("button_out_of_range"));
  enter(charge_fields::button, "12 g");
  ASSERT_TRUE(seen("button_out_of_range"));
  EXPECT_EQ(seen("button_out_of_range")->seen, "The button of 26-0001/1 weighs 12.0 g; buttons of 18 to 50 g are looked for.");
  enter(charge_fields::button, "55 g");
  EXPECT_TRUE(seen("button_out_of_range"));
  ASSERT_TRUE(fire::set_spoiled(book, started.charge, "boiled over").ok());
  EXPECT_FALSE(seen("button_out_of_range")) << "a spoiled charge has no result to doubt";
}

TEST_F(FurnaceFindings, CupelOverloaded) {
  enter(charge_fields::button, "28 g");
  enter(charge_fields::cupel, "30 g");
  EXPECT_FALSE(seen("cupel_overloaded"));
  enter(charge_fields::lead_added, "4 g");
  EXPECT_TRUE(seen("cupel_overloaded")) << "28 g and 4 g on 30 g";
}

TEST_F(FurnaceFindings, FusionSigns) {
  ASSERT_TRUE(fire::set_signs(book, started.charge, charge_fields::cupellation_signs, "feathers").ok());
  EXPECT_FALSE(seen("fusion_doubtful")) << "feathers are what one wants to see";
  ASSERT_TRUE(fire::set_signs(book, started.charge, charge_fields::fusion_signs, "matte, prills").ok());
  ASSERT_TRUE(seen("fusion_doubtful"));
  EXPECT_EQ(seen("fusion_doubtful")->seen, "26-0001/1 showed matte, prills in the slag.");
}

TEST_F(FurnaceFindings, SilverToGoldTooLowToPart) {
  weigh(started.bead, "10 mg");
  ASSERT_TRUE(weighing::set_fineness(book, started.bead, "touchstone", figure("800", Measure::fineness), {}).ok());
  EXPECT_FALSE(seen("silver_to_gold_low")) << "nobody wants to part it yet";
  enter(bead_fields::inquart, started.bead.value, "10 mg");
  ASSERT_TRUE(seen("silver_to_gold_low")) << "12 mg of silver to 8 of gold";
  EXPECT_EQ(seen("silver_to_gold_low")->severity, Severity::stop);
  enter(bead_fields::inquart, started.bead.value, "18 mg");
  EXPECT_FALSE(seen("silver_to_gold_low"));
}

TEST_F(FurnaceFindings, IncompleteParting) {
  weigh(started.bead, "10 mg");
  weigh(started.bead, "8 mg", weighing::of_gold);
  EXPECT_FALSE(seen("incomplete_parting")) << "how much silver was added is not known";
  enter(bead_fields::inquart, started.bead.value, "10 mg");
  ASSERT_TRUE(seen("incomplete_parting"));
  EXPECT_EQ(seen("incomplete_parting")->severity, Severity::caution);
  enter(bead_fields::inquart, started.bead.value, "18 mg");
  EXPECT_FALSE(seen("incomplete_parting"));
}

TEST_F(FurnaceFindings, IncompletePartingOfABeadWithCollector) {
  enter(charge_fields::collector, "2 mg");
  weigh(started.bead, "10 mg");
  weigh(started.bead, "8 mg", weighing::of_gold);
  EXPECT_TRUE(seen("incomplete_parting")) << "a quarter part of silver";
}

TEST_F(FurnaceFindings, LotsAndBlanks) {
  const LotId lot = *fire::add_lot(book, "litharge 3", "litharge");
  enter(charge_fields::litharge, "80 g");
  EXPECT_FALSE(seen("lot_without_blank"));
  ASSERT_TRUE(fire::set_lot(book, started.charge, charge_fields::litharge_lot, lot).ok());
  EXPECT_TRUE(seen("lot_without_blank"));
  enter(history::fields::lot::silver, lot.value, "2 mg/100 g");
  EXPECT_FALSE(seen("lot_without_blank"));
  EXPECT_FALSE(seen("blank_high"));
  weigh(started.bead, "10 mg");
  EXPECT_FALSE(seen("blank_high")) << "1.6 mg of 10";
  enter(history::fields::lot::silver, lot.value, "4 mg/100 g");
  ASSERT_TRUE(seen("blank_high"));
  EXPECT_EQ(seen("blank_high")->severity, Severity::caution) << "3.2 mg of 10";
}

// 80 g with 2 mg in 100 g bring 1.6 mg; what the lab enters goes before what the lot says.
TEST_F(FurnaceFindings, TheBlankOfALotIsTakenOff) {
  const LotId lot = *fire::add_lot(book, "litharge 3", "litharge");
  enter(history::fields::lot::silver, lot.value, "2 mg/100 g");
  enter(charge_fields::litharge, "80 g");
  ASSERT_TRUE(fire::set_lot(book, started.charge, charge_fields::litharge_lot, lot).ok());
  weigh(started.bead, "10 mg");
  const auto record = results::load_sample_record(*connection, sample);
  EXPECT_NEAR(record->blank_of(record->charges[0].charge)->in(unit::milligram), 1.6, 1e-9);
  EXPECT_NEAR(results::fire_input(*record, record->charges[0])->blank->in(unit::milligram), 1.6, 1e-9);
  enter(charge_fields::blank, "1 mg");
  const auto again = results::load_sample_record(*connection, sample);
  EXPECT_NEAR(again->blank_of(again->charges[0].charge)->in(unit::milligram), 1, 1e-9);
}

TEST_F(FurnaceFindings, APotIsRememberedAfterARichOre) {
  const PotId pot = *fire::add_pot(book, "K4");
  const auto put = [&](ChargeId id) {
    ASSERT_TRUE(readings::enter(book, charge_fields::pot, id.value, readings::cell_of(pot)).ok());
  };
  put(started.charge);
  EXPECT_FALSE(seen("pot_after_rich")) << "the first in the pot";
  weigh(started.bead, "20 mg");  // 1000 g/t
  const auto after = *fire::start_charge(book, {*cut("20 g", "fire"), {}, person, {}, {}, {}});
  put(after.charge);
  ASSERT_TRUE(seen("pot_after_rich"));
  weigh(after.bead, "18 mg");
  EXPECT_FALSE(seen("pot_after_rich")) << "an ore as rich takes no harm";
}

TEST_F(FurnaceFindings, AFireBeadFinerThanThePanBead) {
  const auto pan = *gravity::start_pan_test(book, {*cut("1 kg", "pan"), {}, person, {}});
  weigh(pan.bead, "20 mg");
  weigh(started.bead, "0.4 mg");
  const auto fine = [&](BeadId bead, const std::string& permil) {
    ASSERT_TRUE(weighing::set_fineness(book, bead, "touchstone", figure(permil, Measure::fineness), {}).ok());
  };
  fine(pan.bead, "850");
  fine(started.bead, "700");
  EXPECT_FALSE(seen("pan_fire_fineness")) << "paler in the fire is usual";
  fine(started.bead, "880");
  EXPECT_FALSE(seen("pan_fire_fineness")) << "within what touchstone can tell";
  fine(started.bead, "950");
  EXPECT_TRUE(seen("pan_fire_fineness"));
}

}  // namespace
}  // namespace prillbook::findings
