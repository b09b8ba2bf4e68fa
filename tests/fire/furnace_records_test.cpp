// SPDX-License-Identifier: GPL-3.0-or-later
// Lots, designs, what is weighed into a charge, runs and proofs.
#include <gtest/gtest.h>

#include "core/fire/design_record.h"
#include "core/fire/furnace_lists.h"
#include "core/fire/runs.h"
#include "core/fire/statements.h"
#include "core/history/fields.h"
#include "tests/support/records.h"

namespace prillbook::fire {
namespace {

using testing_support::figure;
using testing_support::LabWithSample;
namespace charge_fields = history::fields::charge;
namespace design_fields = history::fields::charge_design;
namespace proof_fields = history::fields::proof;

struct FurnaceRecords : testing::Test, LabWithSample<> {
  StartedCharge start(const std::string& mass = "20 g") {
    return *start_charge(book, {*cut(mass, "fire"), {}, person, {}, {}, {}});
  }
  Charge held(ChargeId id) { return *charge(*connection, id); }
  static history::Value word(const std::string& text) { return readings::cell_of(std::optional(text)); }
};

TEST_F(FurnaceRecords, FlourAndNitreNeedAReason) {
  const ChargeId id = start().charge;
  ASSERT_TRUE(set_reagent(book, id, charge_fields::flour, figure("3 g")).ok());
  const auto both = set_reagent(book, id, charge_fields::nitre, figure("5 g"));
  ASSERT_FALSE(both.ok());
  EXPECT_EQ(both.error().code, ErrorCode::conflict);
  EXPECT_EQ(both.error().field, "charge.flour_and_nitre");
  EXPECT_FALSE(held(id).nitre) << "nothing was written";
  ASSERT_TRUE(set_flour_and_nitre(book, id, "nitre to roast, flour once it is quiet").ok());
  ASSERT_TRUE(set_reagent(book, id, charge_fields::nitre, figure("5 g")).ok());
  EXPECT_EQ(set_flour_and_nitre(book, id, "").error().code, ErrorCode::conflict) << "the reason stays while both stand";
  ASSERT_TRUE(set_reagent(book, id, charge_fields::flour, figure("0 g")).ok());
  EXPECT_TRUE(set_flour_and_nitre(book, id, "").ok());
}

TEST_F(FurnaceRecords, ALotIsOfItsKind) {
  const ChargeId id = start().charge;
  const LotId lead = *add_lot(book, "lead 7", "lead");
  EXPECT_EQ(set_lot(book, id, charge_fields::litharge_lot, lead).error().code, ErrorCode::inconsistent);
  EXPECT_TRUE(set_lot(book, id, charge_fields::lead_lot, lead).ok());
  EXPECT_EQ(held(id).lead_lot, lead);
  EXPECT_EQ(add_lot(book, "lead 7", "lead").error().code, ErrorCode::already_exists);
  EXPECT_EQ(add_lot(book, "sand", "sand").error().code, ErrorCode::out_of_range);
  EXPECT_EQ(add_lot(book, "  ", "lead").error().code, ErrorCode::missing_key);
}

TEST_F(FurnaceRecords, SignsAreWordsOfTheTrade) {
  const ChargeId id = start().charge;
  EXPECT_EQ(set_signs(book, id, charge_fields::fusion_signs, "a smell").error().code, ErrorCode::out_of_range);
  ASSERT_TRUE(set_signs(book, id, charge_fields::fusion_signs, "prills,matte , prills").ok());
  EXPECT_EQ(held(id).fusion_signs, "matte, prills");
  EXPECT_TRUE(has_sign(held(id).fusion_signs, "prills"));
  EXPECT_FALSE(has_sign(held(id).fusion_signs, "prill"));
  EXPECT_EQ(set_signs(book, id, charge_fields::cupellation_signs, "matte").error().code, ErrorCode::out_of_range);
  ASSERT_TRUE(set_signs(book, id, charge_fields::fusion_signs, "").ok());
  EXPECT_FALSE(held(id).fusion_signs);
}

TEST_F(FurnaceRecords, ADesignIsKeptWithThePortion) {
  const PortionId portion = *cut("20 g", "fire");
  EXPECT_EQ(charge_input(*connection, portion, DecimalMark::point)->button_target.in(unit::gram), 20);
  ASSERT_TRUE(set_design(book, portion, design_fields::ore_kind, word("sulphide")).ok());
  ASSERT_TRUE(set_design(book, portion, design_fields::sulphides, word("iron pyrites 40, galena 5 %")).ok());
  EXPECT_EQ(set_design(book, portion, design_fields::sulphides, word("fool's gold 4")).error().code, ErrorCode::out_of_range);
  EXPECT_EQ(set_design(book, portion, design_fields::sulphides, word("pyrite")).error().code, ErrorCode::missing_key);
  const auto input = charge_input(*connection, portion, DecimalMark::point);
  ASSERT_TRUE(input.ok());
  ASSERT_EQ(input->sulphides.size(), 2u);
  EXPECT_EQ(input->sulphides[0].mineral, "pyrite");
  EXPECT_DOUBLE_EQ(input->sulphides[1].share.in(unit::percent), 5);
  EXPECT_TRUE(design_charge(*input).ok());
}

TEST_F(FurnaceRecords, SharesWithADecimalComma) {
  const auto read = read_sulphides("pyrite 12,5, galena 3", DecimalMark::comma);
  ASSERT_TRUE(read.ok()) << read.error().detail;
  ASSERT_EQ(read->size(), 2u);
  EXPECT_DOUBLE_EQ((*read)[0].share.in(unit::percent), 12.5);
  EXPECT_EQ(read_sulphides("pyrite 140", DecimalMark::point).error().code, ErrorCode::out_of_range);
  EXPECT_EQ(read_sulphides("pyrite 4 g", DecimalMark::point).error().code, ErrorCode::out_of_range);
  EXPECT_TRUE(read_sulphides(" , ;", DecimalMark::point)->empty());
}

TEST_F(FurnaceRecords, AMeasuredReducingPowerLeads) {
  const PortionId portion = *cut("20 g", "fire");
  const ReducingTestId test = *start_reducing_test(book, sample, person);
  ASSERT_TRUE(book.record("t",
                          [&](history::ChangeSet& set) {
                            return set_design(set, portion, design_fields::reducing_test, readings::cell_of(test));
                          })
                  .ok());
  EXPECT_EQ(charge_input(*connection, portion, DecimalMark::point).error().code, ErrorCode::missing_key);
  namespace test_fields = history::fields::reducing_test;
  const auto enter = [&](const history::Field& field, const std::string& mass) {
    ASSERT_TRUE(readings::enter(book, field, test.value, readings::cell_of(readings::Figure{figure(mass)})).ok());
  };
  enter(test_fields::ore, "3 g");
  enter(test_fields::button, "16.5 g");
  EXPECT_DOUBLE_EQ(*charge_input(*connection, portion, DecimalMark::point)->reducing_power, 5.5);
}

TEST_F(FurnaceRecords, RepeatsAreNumbered) {
  const ChargeId first = start().charge;
  EXPECT_EQ(*repeat_number(*connection, first), 0);
  ASSERT_TRUE(set_spoiled(book, first, "boiled over").ok());
  EXPECT_EQ(*spoiled_without_repeat(*connection, sample), first);
  const ChargeId second = start_charge(book, {*cut("20 g", "fire"), {}, person, first, {}, {}})->charge;
  ASSERT_TRUE(set_spoiled(book, second, "pot cracked").ok());
  const ChargeId third = start_charge(book, {*cut("20 g", "fire"), {}, person, second, {}, {}})->charge;
  EXPECT_EQ(*repeat_number(*connection, third), 2);
  EXPECT_FALSE(*spoiled_without_repeat(*connection, sample));
}

TEST_F(FurnaceRecords, ListsOfTheFurnace) {
  const PortionId portion = *cut("20 g", "fire");
  (void)*cut("1 kg", "pan");
  EXPECT_EQ(*count_waiting_at_the_furnace(*connection), 1);
  EXPECT_EQ(waiting_at_the_furnace(*connection, 9)->front().portion, portion);
  const auto started = start_charge(book, {portion, {}, person, {}, {}, {}});
  EXPECT_EQ(*count_waiting_at_the_furnace(*connection), 1) << "as the list has it";
  EXPECT_EQ(waiting_at_the_furnace(*connection, 9)->front().charge, started->charge) << "its bead is not weighed";
  EXPECT_TRUE(charges_made(*connection, 9)->empty());
  ASSERT_TRUE(set_spoiled(book, started->charge, "spilled").ok());
  EXPECT_EQ(charges_made(*connection, 9)->front().charge, started->charge);
  EXPECT_TRUE(waiting_at_the_furnace(*connection, 9)->empty());
  EXPECT_EQ(*count_waiting_at_the_furnace(*connection), 0);
  const FurnaceRunId run = *start_run(book, {{}, "fusion", person});
  EXPECT_EQ(*count_waiting_at_the_furnace(*connection), 1) << "not drawn yet";
  ASSERT_TRUE(readings::enter(book, history::fields::furnace_run::ended_at, run.value, to_iso(clock.now())).ok());
  EXPECT_EQ(*count_waiting_at_the_furnace(*connection), 0);
}

TEST_F(FurnaceRecords, TemperaturesStandInOrderOfTime) {
  const FurnaceRunId run = *start_run(book, {"", "cupellation", person});
  ASSERT_TRUE(note_temperature(book, {run, *parse_iso("2026-05-04T11:00+02:00"), 960, 955, {}}).ok());
  ASSERT_TRUE(note_temperature(book, {run, *parse_iso("2026-05-04T10:30+02:00"), 960, 880, "doors shut"}).ok());
  const auto loaded = furnace_run(*connection, run);
  ASSERT_EQ(loaded->readings.size(), 2u);
  EXPECT_EQ(loaded->readings[0].read_c, 880);
  EXPECT_FALSE(loaded->name.empty()) << "named by its kind and day";
  EXPECT_EQ(note_temperature(book, {run, {}, {}, {}, " "}).error().code, ErrorCode::missing_key);
  EXPECT_EQ(note_temperature(book, {run, {}, {}, 3000, {}}).error().code, ErrorCode::out_of_range);
  EXPECT_EQ(note_temperature(book, {run, {}, -1, {}, {}}).error().code, ErrorCode::out_of_range);
  EXPECT_EQ(start_run(book, {"", "baking", person}).error().code, ErrorCode::out_of_range);
}

TEST_F(FurnaceRecords, ProofsGiveTheirLossToACharge) {
  const ChargeId id = start().charge;
  EXPECT_EQ(take_proof_losses(book, id).error().code, ErrorCode::missing_key);
  const FurnaceRunId run = *start_run(book, {"cupels", "cupellation", person});
  ASSERT_TRUE(readings::enter(book, charge_fields::cupellation_run, id.value, readings::cell_of(run)).ok());
  EXPECT_EQ(take_proof_losses(book, id).error().code, ErrorCode::missing_key) << "no proof yet";
  const ProofId proof = *add_proof(book, run);
  for (const auto& [field, mass] : {std::pair(&proof_fields::silver_in, "100 mg"), std::pair(&proof_fields::bead, "97.1 mg")})
    ASSERT_TRUE(readings::enter(book, *field, proof.value, readings::cell_of(readings::Figure{figure(mass)})).ok());
  EXPECT_EQ(charges_in(*connection, run)->front(), id);
  ASSERT_TRUE(take_proof_losses(book, id).ok()) << "silver only: nothing has to be parted";
  EXPECT_NEAR(held(id).silver_loss->share().in(unit::percent), 2.9, 1e-9);
  EXPECT_FALSE(held(id).gold_loss);
  ASSERT_TRUE(
      readings::enter(book, charge_fields::cupel_metal, id.value, readings::cell_of(readings::Figure{figure("0.1 mg")})).ok());
  EXPECT_EQ(take_proof_losses(book, id).error().code, ErrorCode::conflict) << "recovered or lost, never both";
}

TEST(FurnaceStatements, AllCompile) {
  const auto connection = store::Connection::in_memory().value();
  for (const store::Sql* statement : sql::all) EXPECT_TRUE(connection->prepare_only(*statement).ok()) << statement->name;
}

}  // namespace
}  // namespace prillbook::fire
