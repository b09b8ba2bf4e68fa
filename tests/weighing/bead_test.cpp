// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/weighing/bead.h"

#include <fmt/format.h>
#include <gtest/gtest.h>

#include "core/fire/charge_record.h"
#include "core/gravity/pan_test.h"
#include "core/history/fields.h"
#include "core/units/units.h"
#include "core/weighing/in_water.h"
#include "core/weighing/plausibility.h"
#include "core/weighing/statements.h"
#include "core/weighing/tare.h"
#include "tests/support/records.h"

namespace prillbook::weighing {
namespace {

namespace fields = history::fields;
using testing_support::figure;
using testing_support::LabWithSample;

// The steps of the plan, a line each.
std::string query_plan(store::Connection& connection, const store::Sql& question) {
  std::string steps;
  const auto read = connection.rows_derived(fmt::format("EXPLAIN QUERY PLAN {}", question.text), {}, [&](const store::Row& row) {
    steps += row.text(3) + "\n";
    return true;
  });
  return read.ok() ? steps : read.error().detail;
}

struct BeadTest : testing::Test, LabWithSample<> {
  BeadId pan_bead = gravity::start_pan_test(book, {*cut("1 kg", "pan"), {}, person, {}})->bead;
  Result<WeighingId> weigh_it(const std::string& mass, const std::string& what = "bead") {
    return weigh(book, {pan_bead, what, figure(mass), balance, {}, person});
  }
};

TEST_F(BeadTest, RepeatsAreNumberedAndTheBalanceStepIsKept) {
  ASSERT_TRUE(weigh_it("22.001 mg").ok());
  ASSERT_TRUE(weigh_it("22.003 mg").ok());
  const auto stored = bead(*connection, pan_bead);
  ASSERT_EQ(stored->weighings.size(), 2u);
  EXPECT_EQ(stored->weighings[1].number, 2);
  EXPECT_DOUBLE_EQ(stored->weighings[1].mass.step_g.value(), 1e-6);
}

TEST_F(BeadTest, HeavierThanItsPortionIsRefused) {
  const auto refused = weigh_it("2 kg");
  ASSERT_FALSE(refused.ok());
  EXPECT_EQ(refused.error().code, ErrorCode::inconsistent);
  EXPECT_EQ(refused.error().arguments, (std::vector<std::string>{"2 kg", "1 kg"}));
}

TEST_F(BeadTest, PartedGoldIsNoHeavierThanItsBead) {
  ASSERT_TRUE(weigh_it("22 mg").ok());
  EXPECT_EQ(weigh_it("23 mg", "gold").error().code, ErrorCode::inconsistent);
  EXPECT_TRUE(weigh_it("16.5 mg", "gold").ok());
}

TEST_F(BeadTest, GrossLessTareIsTheMass) {
  NewWeighing fresh{pan_bead, std::string(of_bead), {}, balance, {}, person};
  fresh.gross = figure("512.345 mg");
  EXPECT_EQ(weigh(book, fresh).error().field, "weighing.tare") << "one without the other";
  fresh.tare = figure("0.4903 g");
  ASSERT_TRUE(weigh(book, fresh).ok());
  const Weighing weighed = bead(*connection, pan_bead)->weighings.front();
  EXPECT_EQ(weighed.mass.typed, "22.045 mg") << "decimals of the finer one, on paper";
  EXPECT_EQ(weighed.mass.answer, net_is_derived);
  EXPECT_EQ(weighed.gross->typed, "512.345 mg");
  EXPECT_EQ(weighed.tare->typed, "0.4903 g");
  EXPECT_EQ(weighed.tare->balance, balance);
  EXPECT_TRUE(weighed.is_difference());
  fresh.tare = figure("512.345 mg");
  EXPECT_EQ(weigh(book, fresh).error().code, ErrorCode::inconsistent) << "nothing in the cup";
  fresh.tare = figure("none");
  EXPECT_EQ(weigh(book, fresh).error().code, ErrorCode::out_of_range);
  ASSERT_TRUE(correct(book, weighed.id, figure("22.05 mg"), "read the wrong line").ok());
  EXPECT_FALSE(bead(*connection, pan_bead)->weighings.front().is_difference());
}

TEST_F(BeadTest, TheTrayAndPositionAreKept) {
  const auto tray = book.record_for<TrayId>("t", [&](history::ChangeSet& set) -> Result<TrayId> {
    PRILLBOOK_ASSIGN(const RecordId id, set.make(history::Entity::tray, {{history::fields::tray::name, std::string("beads")},
                                                                         {history::fields::tray::kind, std::string("bead")},
                                                                         {history::fields::tray::rows, std::int64_t{1}},
                                                                         {history::fields::tray::columns, std::int64_t{12}}}));
    return TrayId{id};
  });
  NewWeighing fresh{pan_bead, std::string(of_bead), figure("22 mg"), balance, {}, person};
  fresh.tray = *tray;
  fresh.position = 7;
  ASSERT_TRUE(weigh(book, fresh).ok());
  EXPECT_EQ(bead(*connection, pan_bead)->weighings.front().tray, *tray);
  EXPECT_EQ(bead(*connection, pan_bead)->weighings.front().position, 7);
}

// 20 mg and 12 mg melted together leave 24 mg of gold: three quarters of each.
TEST_F(BeadTest, BeadsMeltedTogetherShareTheirGoldByMass) {
  const BeadId second = gravity::start_pan_test(book, {*cut("1 kg", "pan"), {}, person, {}})->bead;
  ASSERT_TRUE(weigh_it("20 mg").ok());
  EXPECT_EQ(melt_into(book, second, pan_bead).error().code, ErrorCode::missing_key) << "not weighed before";
  ASSERT_TRUE(weigh(book, {second, "bead", figure("12 mg"), balance, {}, person}).ok());
  EXPECT_EQ(melt_into(book, second, second).error().code, ErrorCode::conflict);
  ASSERT_TRUE(melt_into(book, second, pan_bead).ok());
  EXPECT_EQ(melt_into(book, pan_bead, second).error().code, ErrorCode::conflict) << "it is no longer there";
  EXPECT_EQ(set_fineness(book, second, "touchstone", figure("700 ‰", Measure::fineness), {}).error().code, ErrorCode::conflict);
  EXPECT_EQ(beads_without_gold(*connection, 9)->size(), 1u) << "one is parted for both";
  ASSERT_TRUE(weigh_parted(book, {pan_bead, "gold", figure("24 mg"), balance, {}, person}).ok()) << "more than its own 20 mg";
  for (const BeadId id : {pan_bead, second}) {
    const auto parted = bead(*connection, id)->parted();
    ASSERT_TRUE(parted) << id.value;
    EXPECT_DOUBLE_EQ(parted->gold / parted->bead, 0.75);
  }
  ASSERT_TRUE(melt_into(book, second, {}).ok());
  EXPECT_FALSE(bead(*connection, second)->parted());
}

TEST_F(BeadTest, NoneSeenAndAWeighingExcludeEachOther) {
  ASSERT_TRUE(set_none_seen(book, pan_bead, true).ok());
  ASSERT_TRUE(weigh_it("0.02 mg").ok()) << "found after all";
  EXPECT_FALSE(bead(*connection, pan_bead)->none_seen);
  EXPECT_EQ(set_none_seen(book, pan_bead, true).error().code, ErrorCode::conflict);
}

TEST_F(BeadTest, WaitsUntilWeighed) {
  ASSERT_EQ(waiting_beads(*connection, 10)->size(), 1u);
  EXPECT_EQ(waiting_beads(*connection, 10)->front().sample_number, "26-0001");
  ASSERT_TRUE(weigh_it("22 mg").ok());
  EXPECT_EQ(*count_waiting_beads(*connection), 0);
  EXPECT_EQ(recent_weighings(*connection, 5)->size(), 1u);
}

// Whatever is entered or taken back, the table of beads to weigh says what the records say.
TEST_F(BeadTest, WhatIsStillToWeighFollowsEveryChange) {
  const auto still = [&]() -> std::string {
    if (!waiting_beads(*connection, 9)->empty()) return "bead";
    return beads_without_gold(*connection, 9)->empty() ? "" : "gold";
  };
  EXPECT_EQ(still(), "bead");
  const WeighingId first = *weigh_it("22 mg");
  EXPECT_EQ(still(), "gold");
  ASSERT_TRUE(exclude(book, first, "spilled").ok());
  EXPECT_EQ(still(), "") << "it was weighed, if badly";
  const WeighingId second = *weigh_it("22.1 mg");
  EXPECT_EQ(still(), "gold");
  ASSERT_TRUE(weigh_parted(book, {pan_bead, "gold", figure("16 mg"), balance, {}, person}).ok());
  EXPECT_EQ(still(), "");
  ASSERT_TRUE(book.record("strike out",
                          [&](history::ChangeSet& set) -> Result<void> {
                            for (const WeighingId id : {first, second})
                              PRILLBOOK_TRY(set.set(fields::weighing::struck, id.value, std::int64_t{1}));
                            return {};
                          })
                  .ok());
  EXPECT_EQ(still(), "") << "its gold stands";
  ASSERT_TRUE(
      book.record("strike out",
                  [&](history::ChangeSet& set) { return set.set(fields::weighing::struck, second.value + 1, std::int64_t{1}); })
          .ok());
  EXPECT_EQ(still(), "bead");
  ASSERT_TRUE(set_none_seen(book, pan_bead, true).ok());
  EXPECT_EQ(still(), "");
}

// A notebook of any size: the page is read from the index, nothing is gone through and nothing sorted.
TEST_F(BeadTest, BeadsToWeighAreFoundWithoutLookingAtEveryBead) {
  for (const store::Sql& question : {sql::beads_to_weigh, sql::count_beads_to_weigh}) {
    const auto plan = query_plan(*connection, question);
    EXPECT_NE(plan.find("o USING COVERING INDEX bead_to_weigh_what (what=?)"), std::string::npos) << plan;
    EXPECT_EQ(plan.find("SCAN"), std::string::npos) << plan;
    EXPECT_EQ(plan.find("TEMP B-TREE"), std::string::npos) << plan;
  }
}

TEST_F(BeadTest, ASpoiledChargeDoesNotWait) {
  const auto charge = fire::start_charge(book, {*cut("30 g", "fire"), {}, person, {}, {}, {}});
  EXPECT_EQ(*count_waiting_beads(*connection), 2);
  ASSERT_TRUE(fire::set_spoiled(book, charge->charge, "cupel froze").ok());
  EXPECT_EQ(*count_waiting_beads(*connection), 1);
}

TEST_F(BeadTest, FinenessNeedsItsMethodAndItsUncertainty) {
  EXPECT_EQ(set_fineness(book, pan_bead, {}, figure("750", Measure::fineness), {}).error().code, ErrorCode::missing_key);
  EXPECT_EQ(set_fineness(book, pan_bead, "density", figure("750", Measure::fineness), {}).error().field, "bead.fineness_u");
  EXPECT_EQ(set_fineness(book, pan_bead, "parted", figure("750", Measure::fineness), {}).error().code, ErrorCode::conflict);
  EXPECT_EQ(set_fineness(book, pan_bead, "taste", figure("750", Measure::fineness), {}).error().code, ErrorCode::out_of_range);
  EXPECT_TRUE(set_fineness(book, pan_bead, "touchstone", figure("750", Measure::fineness), {}).ok());
}

// ROSE p. 49, table XIV: an alloy of 750 fine has the specific gravity 16.03, so that 22 mg lose 1.370 mg in water. His pure
// metals weighed 19.26 and 10.45 at 15 degrees Celsius, ours are 19.3 and 10.5: 12 permil are allowed.
TEST_F(BeadTest, AirAndWaterGiveTheFinenessWithItsUncertainty) {
  ASSERT_TRUE(weigh_it("22 mg").ok());
  const InWater weighed{figure("22.000 mg"), figure("20.630 mg"), balance};
  ASSERT_TRUE(weigh_in_water(book, pan_bead, weighed).ok());
  const auto stored = bead(*connection, pan_bead);
  EXPECT_EQ(stored->method, "density");
  EXPECT_NEAR(stored->fineness->value, 750, 12);
  EXPECT_NEAR(stored->fineness_u->value, 0.42, 0.05) << "a step of 0.001 mg on a loss of 1.37 mg";
  EXPECT_EQ(stored->fineness->answer, fineness_is_derived);
  EXPECT_EQ(stored->in_air->typed, "22.000 mg");
  EXPECT_DOUBLE_EQ(stored->in_water->step_g.value(), 1e-6);
}

TEST_F(BeadTest, AFinenessByHandTakesThePlaceOfTheWeights) {
  ASSERT_TRUE(weigh_in_water(book, pan_bead, {figure("22.000 mg"), figure("20.630 mg"), balance}).ok());
  ASSERT_TRUE(set_fineness(book, pan_bead, "touchstone", figure("740 ‰", Measure::fineness), {}).ok());
  const auto stored = bead(*connection, pan_bead);
  EXPECT_FALSE(stored->in_air);
  EXPECT_FALSE(stored->in_water);
}

TEST_F(BeadTest, WeightsInWaterThatSayNothingAreRefused) {
  const auto refused = [&](const char* air, const char* water, BalanceId on) {
    return weigh_in_water(book, pan_bead, {figure(air), figure(water), on}).error();
  };
  EXPECT_EQ(refused("0.1 mg", "0.095 mg", balance).code, ErrorCode::too_small) << "five steps lost";
  EXPECT_EQ(refused("0.1 mg", "0.095 mg", balance).field, "bead.in_water");
  EXPECT_EQ(refused("20 mg", "21 mg", balance).code, ErrorCode::inconsistent);
  EXPECT_EQ(refused("20 mg", "15 mg", balance).code, ErrorCode::out_of_range) << "no alloy of gold and silver is so light";
  EXPECT_EQ(refused("22 mg", "20.63 mg", {}).field, "weighing.balance_id");
  EXPECT_FALSE(bead(*connection, pan_bead)->method);
}

TEST_F(BeadTest, ACorrectionKeepsTheOldReadingReadable) {
  const auto id = weigh_it("22 mg");
  ASSERT_TRUE(correct(book, *id, figure("23 mg"), "read the wrong line").ok());
  EXPECT_EQ(bead(*connection, pan_bead)->weighings[0].mass.typed, "23 mg");
  ASSERT_TRUE(book.undo().ok());
  EXPECT_EQ(bead(*connection, pan_bead)->weighings[0].mass.typed, "22 mg");
}

TEST_F(BeadTest, GoldAfterPartingSaysHowTheFinenessWasGot) {
  ASSERT_TRUE(weigh_it("22 mg").ok());
  ASSERT_EQ(beads_without_gold(*connection, 10)->size(), 1u);
  EXPECT_EQ(beads_without_gold(*connection, 10)->front().bead, pan_bead);
  ASSERT_TRUE(weigh_parted(book, {pan_bead, "", figure("16.5 mg"), balance, {}, person}).ok());
  EXPECT_EQ(bead(*connection, pan_bead)->method, "parted");
  EXPECT_TRUE(beads_without_gold(*connection, 10)->empty());
  ASSERT_TRUE(book.undo().ok());  // one gesture
  EXPECT_FALSE(bead(*connection, pan_bead)->method);
  EXPECT_EQ(beads_without_gold(*connection, 10)->size(), 1u);
}

TEST_F(BeadTest, GoldAfterPartingIsRefusedBesideAnotherFineness) {
  ASSERT_TRUE(weigh_it("22 mg").ok());
  ASSERT_TRUE(set_fineness(book, pan_bead, "touchstone", figure("750", Measure::fineness), {}).ok());
  EXPECT_TRUE(beads_without_gold(*connection, 10)->empty());
  EXPECT_EQ(weigh_parted(book, {pan_bead, "", figure("16 mg"), balance, {}, person}).error().code, ErrorCode::conflict);
}

TEST_F(BeadTest, RecentWeighingsSayWhoAndWhen) {
  ASSERT_TRUE(weigh_it("22 mg").ok());
  const auto recent = recent_weighings(*connection, 5);
  ASSERT_EQ(recent->size(), 1u);
  EXPECT_EQ(recent->front().who, "HM");
  EXPECT_TRUE(recent->front().weighed_at);
  EXPECT_EQ(recent->front().portion_number, 1);
}

std::vector<Doubt> asked(const std::string& text, const Weighed& context) {
  std::vector<Doubt> list;
  for (const Question& question : doubts(figure(text), context)) list.push_back(question.doubt);
  return list;
}

TEST(Plausibility, GramsThatWereMeantAsMilligramsAreAskedAbout) {
  const Weighed context{Mass(1, unit::kilogram), Mass(0.001, unit::milligram), Grade(5000, unit::gram_per_tonne)};
  const auto questions = doubts(figure("22"), context);
  ASSERT_EQ(questions.size(), 1u);
  EXPECT_EQ(questions[0].doubt, Doubt::perhaps_milligrams);
  EXPECT_DOUBLE_EQ(questions[0].instead->value, 0.022);
  EXPECT_EQ(questions[0].instead->typed, "22 mg");
  EXPECT_TRUE(asked("22 mg", context).empty());
}

TEST(Plausibility, StepOfTheBalance) {
  const Weighed context{Mass(30, unit::gram), Mass(0.01, unit::milligram), Grade(5000, unit::gram_per_tonne)};
  EXPECT_EQ(asked("0.15 mg", context), std::vector<Doubt>{Doubt::near_step});
  EXPECT_EQ(asked("0.253 mg", context), std::vector<Doubt>{Doubt::off_step});
  EXPECT_TRUE(asked("0.25 mg", context).empty());
}

TEST(Plausibility, AFigureOffWhatWasWeighedBefore) {
  Weighed context{Mass(30, unit::gram), Mass(0.001, unit::milligram), Grade(5000, unit::gram_per_tonne)};
  context.earlier = {figure("1.234 mg")};
  context.repeat_sd = Mass(0.002, unit::milligram);
  EXPECT_TRUE(asked("1.245 mg", context).empty()) << "0.0112 mg are allowed";
  EXPECT_EQ(asked("1.246 mg", context), std::vector<Doubt>{Doubt::apart_from_earlier});
  EXPECT_FALSE(doubts(figure("1.296 mg"), context).front().instead);
  const auto exchanged = doubts(figure("1.324 mg"), context);
  ASSERT_EQ(exchanged.size(), 1u);
  EXPECT_NEAR(exchanged[0].figure, 0.09, 1e-12);
  ASSERT_TRUE(exchanged[0].instead);
  EXPECT_EQ(exchanged[0].instead->typed, "1.234 mg");
}

TEST(Statements, AllCompile) {
  const auto connection = store::Connection::in_memory().value();
  for (const store::Sql* statement : sql::all) EXPECT_TRUE(connection->prepare_only(*statement).ok()) << statement->name;
}

}  // namespace
}  // namespace prillbook::weighing
