// SPDX-License-Identifier: GPL-3.0-or-later
// Control materials and their stock, roles of charges, decisions on runs, what is due.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "core/controls/decisions.h"
#include "core/controls/insertion.h"
#include "core/controls/materials.h"
#include "core/controls/statements.h"
#include "core/fire/charge_record.h"
#include "core/fire/lots.h"
#include "core/fire/runs.h"
#include "core/gravity/pan_test.h"
#include "core/history/fields.h"
#include "core/milling/machines.h"
#include "tests/support/records.h"

namespace prillbook::controls {
namespace {

using testing_support::figure;
using testing_support::LabWithSample;
namespace material_fields = history::fields::control_material;

struct Controls : testing::Test, LabWithSample<> {
  ControlMaterialId add(const std::string& name, const std::string& kind, const std::string& mass = "500 g") {
    return *add_material(book, {name, kind, mass.empty() ? readings::Figure() : readings::Figure(figure(mass))});
  }
  void enter(const history::Field& field, ControlMaterialId id, const std::string& typed) {
    ASSERT_TRUE(readings::enter(book, field, id.value, readings::cell_of(readings::Figure(figure(typed, Measure::grade)))).ok());
  }
  void word(const history::Field& field, ControlMaterialId id, const std::string& typed) {
    ASSERT_TRUE(readings::enter(book, field, id.value, readings::cell_of(std::optional(typed))).ok());
  }
  ChargeId fire(PortionId portion) { return fire::start_charge(book, {portion, {}, person, {}, {}, {}})->charge; }
  ChargeId ordinary() { return fire(*cut("20 g", "fire")); }
  ChargeId of_stock(ControlMaterialId id, const std::string& mass = "20 g") {
    return fire(*weigh_in(book, id, mass.empty() ? readings::Figure() : readings::Figure(figure(mass)), person));
  }
  controls::Role role(ChargeId id) { return fire::charge(*connection, id)->role; }
};

TEST_F(Controls, AStockIsASampleOfTheLabsOwn) {
  const Material first = *material(*connection, add("quartz", "blank_rock", "2 kg"));
  const Material second = *material(*connection, add("pulp 5", "reference"));
  const auto of_first = *custody::sample(*connection, first.stock), of_second = *custody::sample(*connection, second.stock);
  EXPECT_EQ(of_first.number, "26-0002") << "the next lab number";
  EXPECT_EQ(of_first.consignment, of_second.consignment) << "one consignment holds all stocks";
  ASSERT_TRUE(weigh_in(book, first.id, figure("50 g"), person).ok());
  EXPECT_NEAR((*left_of_stock(*connection, first))->in(unit::gram), 1950, 1e-9);
  EXPECT_EQ(weigh_in(book, first.id, figure("1.96 kg"), person).error().code, ErrorCode::overdrawn);
  EXPECT_EQ(weigh_in(book, first.id, {}, person).error().code, ErrorCode::missing_key);
  EXPECT_EQ((*material_of(*connection, second.stock))->name, "pulp 5");
  EXPECT_FALSE(material_of(*connection, sample)->has_value());
}

TEST_F(Controls, RefusesWhatIsNoMaterial) {
  add("quartz", "blank_rock");
  EXPECT_EQ(add_material(book, {"quartz", "reference", {}}).error().code, ErrorCode::already_exists);
  EXPECT_EQ(add_material(book, {"  ", "reference", {}}).error().code, ErrorCode::missing_key);
  EXPECT_EQ(add_material(book, {"x", "gravel", {}}).error().code, ErrorCode::out_of_range);
  EXPECT_EQ(materials(*connection)->size(), 1u) << "nothing of a refused one stays";
  EXPECT_EQ(custody::recent_samples(*connection, 10)->size(), 2u);
}

TEST_F(Controls, UncertaintyByItsMeaning) {
  const ControlMaterialId id = add("pulp 5", "reference");
  enter(material_fields::gold, id, "5.00 g/t");
  enter(material_fields::gold_u, id, "0.12 g/t");
  EXPECT_FALSE(material(*connection, id)->certified_gold()->u) << "nobody has said what it means";
  const std::pair<const char*, double> meanings[] = {{"standard", 0.12}, {"expanded", 0.06}, {"limits", 0.0692820}};
  for (const auto& [meaning, u] : meanings) {
    word(material_fields::u_meaning, id, meaning);
    EXPECT_NEAR(material(*connection, id)->certified_gold()->u->in(unit::gram_per_tonne), u, 1e-6) << meaning;
  }
  EXPECT_FALSE(material(*connection, id)->certified_silver());
}

TEST_F(Controls, AChargeTakesTheRoleOfItsStock) {
  EXPECT_EQ(role(of_stock(add("pulp 5", "reference"))), Role::reference);
  EXPECT_EQ(role(of_stock(add("quartz", "blank_rock"))), Role::blank_rock);
  EXPECT_EQ(role(of_stock(add("flux", "blank_flux", ""), "")), Role::blank_flux);
  EXPECT_EQ(role(ordinary()), Role::ordinary);
  const auto panned =
      gravity::start_pan_test(book, {*weigh_in(book, add("spiked sand", "reference"), figure("90 g"), person), {}, {}, {}});
  EXPECT_EQ(gravity::pan_test(*connection, panned->test)->role, Role::reference);
}

TEST_F(Controls, DuplicatesKeepToTheirSample) {
  const ChargeId first = ordinary(), second = ordinary();
  ASSERT_TRUE(set_duplicate(book, second, first, Role::duplicate_pulp).ok());
  EXPECT_EQ(role(second), Role::duplicate_pulp);
  EXPECT_EQ(fire::charge(*connection, second)->duplicate_of, first);
  EXPECT_EQ(set_duplicate(book, first, first, Role::duplicate_pulp).error().code, ErrorCode::inconsistent);
  EXPECT_EQ(set_duplicate(book, first, second, Role::duplicate_pulp).error().code, ErrorCode::inconsistent) << "in a ring";
  EXPECT_EQ(set_duplicate(book, second, first, Role::duplicate_field).error().code, ErrorCode::inconsistent);
  EXPECT_EQ(set_duplicate(book, second, first, Role::flush).error().code, ErrorCode::out_of_range);
  sample = log_sample("Larch adit S", "2 kg");
  const ChargeId other = ordinary();
  EXPECT_EQ(set_duplicate(book, other, first, Role::duplicate_coarse).error().code, ErrorCode::inconsistent);
  EXPECT_TRUE(set_duplicate(book, other, first, Role::duplicate_field).ok());
  ASSERT_TRUE(set_duplicate(book, other, {}, Role::duplicate_field).ok());
  EXPECT_EQ(role(other), Role::ordinary) << "it is none after all";
}

TEST_F(Controls, FindsATestByItsLabel) {
  const ChargeId first = ordinary();
  EXPECT_EQ(*charge_by_label(*connection, " 26-0001/1 ", "charge"), first);
  for (const char* wrong : {"26-0001/2", "26-0001", "26-0009/1", "26-0001/x", "26-0001/1x", ""})
    EXPECT_EQ(charge_by_label(*connection, wrong, "charge").error().code, ErrorCode::not_found) << wrong;
  EXPECT_EQ(pan_test_by_label(*connection, "26-0001/1", "test").error().code, ErrorCode::not_found) << "it was not panned";
}

TEST_F(Controls, AFlushIsAFlush) {
  const MachineId crusher = *milling::add_machine(book, "jaw crusher", "crusher");
  const CleaningId brushed = *milling::clean(book, {crusher, "brush", {}, {}, {}, false, {}});
  const CleaningId flushed = *milling::clean(book, {crusher, "flush", {}, {}, figure("500 g"), true, {}});
  const ChargeId id = of_stock(add("quartz", "blank_rock"));
  EXPECT_EQ(set_flush(book, id, brushed).error().code, ErrorCode::inconsistent);
  ASSERT_TRUE(set_flush(book, id, flushed).ok());
  EXPECT_EQ(role(id), Role::flush);
  EXPECT_EQ(fire::charge(*connection, id)->cleaning, flushed);
}

TEST_F(Controls, TheNewestDecisionStands) {
  const FurnaceRunId run = *fire::start_run(book, {"fusion 1", "fusion", person});
  const auto decided = [&](const NewDecision& fresh) {
    return book.record_for<RunDecisionId>("decide", [&](history::ChangeSet& set) { return decide(set, fresh); });
  };
  EXPECT_FALSE(standing_decision(*connection, run)->has_value());
  EXPECT_EQ(decided({run, "held", " ", ""}).error().field, "run_decision.reason");
  EXPECT_EQ(decided({run, "accepted", "", "", true}).error().code, ErrorCode::missing_key);
  EXPECT_EQ(decided({run, "forgotten", "why", ""}).error().code, ErrorCode::out_of_range);
  ASSERT_TRUE(decided({run, "held", "blank high", "abc"}).ok());
  ASSERT_TRUE(decided({run, "accepted", "", "abd"}).ok());
  EXPECT_EQ((*standing_decision(*connection, run))->decision, "accepted");
  EXPECT_EQ(decisions_of(*connection, run)->size(), 2u) << "the first one stays readable";
}

TEST_F(Controls, WhatIsDue) {
  lab::Settings settings;
  settings.blank_one_in = 3;
  settings.reference_one_in = 0;
  settings.duplicate_one_in = 2;
  const auto due = [&] { return *due_now(*connection, settings, clock.now()); };
  EXPECT_EQ(due().count(), 0) << "nothing was fused yet";
  ordinary(), ordinary();
  const ChargeId third = ordinary();
  EXPECT_EQ(due().count(), 2) << "a blank and a duplicate";
  const auto since_at = [&](ChargeId charge) {
    return *Insertions::read(*connection, third, ChargeId{third.value + 100})->since_at(settings, charge);
  };
  EXPECT_TRUE(since_at(third).empty()) << "the lab has begun with none";
  EXPECT_FALSE(due().counts[0].ever);
  const ControlMaterialId quartz = add("quartz", "blank_rock");
  of_stock(quartz);
  EXPECT_EQ(due().counts[0].charges, 0);
  EXPECT_TRUE(due().counts[0].ever);
  ASSERT_TRUE(set_duplicate(book, ordinary(), third, Role::duplicate_pulp).ok());
  EXPECT_EQ(due().count(), 0);
  const ChargeId lost = ordinary();
  ASSERT_TRUE(fire::set_spoiled(book, lost, "boiled over").ok());
  EXPECT_EQ(due().counts[0].charges, 0) << "a spoiled charge is none";
  const auto at_last = since_at(lost);
  ASSERT_EQ(at_last.size(), 2u) << "blanks and duplicates; no reference material was ever fused";
  EXPECT_EQ(at_last[0].what, Insertion::blank);
  EXPECT_EQ(at_last[0].charges, due().counts[0].charges);
  EXPECT_TRUE(since_at(third).empty()) << "the control came after it";
}

TEST_F(Controls, ALotIsDueAFluxBlankUntilItHasOne) {
  const LotId litharge = *fire::add_lot(book, "litharge 7", "litharge");
  ASSERT_TRUE(fire::add_lot(book, "lead 3", "lead").ok());
  const auto lots = [&] { return due_now(*connection, {}, clock.now())->lots; };
  EXPECT_THAT(lots(), testing::ElementsAre("litharge 7"));
  const ChargeId blank = of_stock(add("flux", "blank_flux", ""), "");
  ASSERT_TRUE(fire::set_lot(book, blank, history::fields::charge::litharge_lot, litharge).ok());
  EXPECT_THAT(lots(), testing::IsEmpty());
}

TEST_F(Controls, AReferenceIsDueByDay) {
  lab::Settings settings;
  of_stock(add("pulp 5", "reference"));
  const Instant in_nine_days{clock.now().utc_ms + std::int64_t{9} * 86'400'000, 120};
  EXPECT_EQ(due_now(*connection, settings, in_nine_days)->count(), 0) << "nothing was fused since";
  ordinary();
  EXPECT_EQ(due_now(*connection, settings, in_nine_days)->count(), 1);
  settings.reference_every_days = 0;
  EXPECT_EQ(due_now(*connection, settings, in_nine_days)->count(), 0);
}

TEST_F(Controls, StocksDoNotWaitAtReceiving) {
  add("quartz", "blank_rock");
  EXPECT_EQ(*custody::count_uncut_samples(*connection), 1) << "the client’s sample alone";
}

TEST_F(Controls, EveryStatementPrepares) {
  for (const store::Sql* statement : sql::all) EXPECT_TRUE(connection->prepare_only(*statement).ok()) << statement->name;
}

}  // namespace
}  // namespace prillbook::controls
