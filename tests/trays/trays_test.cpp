// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/trays/trays.h"

#include <gmock/gmock.h>
#include <rapidcheck/gtest.h>

#include <map>

#include "core/fire/charge_record.h"
#include "core/fire/runs.h"
#include "core/gravity/pan_test.h"
#include "core/history/fields.h"
#include "core/trays/filling.h"
#include "core/trays/shifts.h"
#include "core/trays/statements.h"
#include "tests/support/records.h"

namespace prillbook::trays {
namespace {

using testing_support::LabWithSample;

struct Bench : LabWithSample<> {
  TrayId row = *lay_out(book, {"cupels of the morning", Kind::cupel, {1, 6}});

  fire::StartedCharge charge() { return *fire::start_charge(book, {*cut("30 g", "fire"), {}, person, {}, {}, {}}); }
  gravity::StartedPanTest pan() { return *gravity::start_pan_test(book, {*cut("1 kg", "pan"), {}, person, {}}); }
  Tray held(TrayId id) { return *tray(*connection, id); }
  std::vector<std::int64_t> positions(TrayId id) {
    std::vector<std::int64_t> list;
    for (const Place& one : held(id).places) list.push_back(one.position);
    return list;
  }
};

struct Trays : testing::Test, Bench {};

TEST_F(Trays, AStatementEachIsPrepared) { EXPECT_TRUE(where_is(*connection, {charge().charge, {}, {}}).ok()); }

TEST_F(Trays, StartsAsANumberedRowOfTwelve) {
  const TrayId id = *lay_out(book, {"beads", Kind::bead, {}});
  const Tray fresh = held(id);
  EXPECT_EQ(fresh.grid.rows, 1);
  EXPECT_EQ(fresh.grid.columns, 12);
  EXPECT_TRUE(fresh.places.empty());
  EXPECT_EQ(fresh.first_free(), 1);
  EXPECT_TRUE(fresh.made_at);
}

TEST_F(Trays, AGridCountsRowByRow) {
  const Grid grid{3, 4};
  EXPECT_EQ(grid.size(), 12);
  EXPECT_EQ(grid.row_of(5), 2);
  EXPECT_EQ(grid.column_of(5), 1);
  EXPECT_EQ(grid.row_of(12), 3);
  EXPECT_EQ(grid.column_of(12), 4);
  EXPECT_FALSE(grid.holds(0));
  EXPECT_FALSE(grid.holds(13));
}

TEST_F(Trays, HoldsChargesPanBeadsAndControlsInOrder) {
  const auto fired = charge();
  const auto panned = pan();
  ASSERT_TRUE(place(book, row, 5, {{}, {}, " rock blank "}).ok());
  ASSERT_TRUE(place(book, row, 3, {fired.charge, {}, {}}).ok());
  ASSERT_TRUE(place(book, row, 1, {{}, panned.bead, {}}).ok());
  const Tray tray = held(row);
  ASSERT_EQ(positions(row), (std::vector<std::int64_t>{1, 3, 5}));
  EXPECT_EQ(tray.places[0].bead, panned.bead);
  EXPECT_EQ(tray.places[1].bead, fired.bead) << "the bead that the charge will give";
  EXPECT_EQ(tray.places[2].thing.control, "rock blank");
  EXPECT_FALSE(tray.places[2].bead);
  EXPECT_EQ(tray.first_free(), 2);
  EXPECT_EQ(tray.first_free(5), 6);
}

TEST_F(Trays, TheBeadOfAChargeIsItsCharge) {
  const auto fired = charge();
  ASSERT_TRUE(place(book, row, 1, {{}, fired.bead, {}}).ok());
  EXPECT_EQ(held(row).places[0].thing.charge, fired.charge);
  EXPECT_EQ(place(book, row, 2, {fired.charge, {}, {}}).error().code, ErrorCode::conflict);
}

TEST_F(Trays, RefusesWhatCanNotStandThere) {
  const auto fired = charge();
  EXPECT_EQ(place(book, row, 0, {fired.charge, {}, {}}).error().code, ErrorCode::out_of_range);
  EXPECT_EQ(place(book, row, 7, {fired.charge, {}, {}}).error().code, ErrorCode::out_of_range);
  EXPECT_EQ(place(book, row, 1, {}).error().code, ErrorCode::missing_key);
  EXPECT_EQ(place(book, row, 1, {fired.charge, {}, "blank"}).error().code, ErrorCode::missing_key);
  EXPECT_EQ(place(book, row, 1, {ChargeId{99}, {}, {}}).error().code, ErrorCode::not_found);
  EXPECT_EQ(place(book, TrayId{99}, 1, {fired.charge, {}, {}}).error().code, ErrorCode::not_found);
  ASSERT_TRUE(place(book, row, 1, {fired.charge, {}, {}}).ok());
  EXPECT_EQ(place(book, row, 1, {{}, {}, "blank"}).error().code, ErrorCode::conflict);
  const TrayId other = *lay_out(book, {"other cupels", Kind::cupel, {}});
  const auto refused = place(book, other, 1, {fired.charge, {}, {}});
  EXPECT_EQ(refused.error().code, ErrorCode::conflict);
  EXPECT_EQ(refused.error().arguments, (std::vector<std::string>{"cupels of the morning", "1"}));
  EXPECT_EQ(lay_out(book, {"t", Kind::bead, {0, 5}}).error().code, ErrorCode::out_of_range);
  EXPECT_EQ(lay_out(book, {"t", Kind::bead, {1, 101}}).error().code, ErrorCode::out_of_range);
  EXPECT_EQ(lay_out(book, {" ", Kind::bead, {}}).error().code, ErrorCode::missing_key);
}

TEST_F(Trays, MovesSwapsAndClearsWithTheirReason) {
  const auto a = charge(), b = charge();
  ASSERT_TRUE(place(book, row, 1, {a.charge, {}, {}}).ok());
  ASSERT_TRUE(place(book, row, 2, {b.charge, {}, {}}).ok());
  EXPECT_EQ(move(book, row, 1, 2, "").error().code, ErrorCode::conflict);
  EXPECT_EQ(move(book, row, 4, 5, "").error().code, ErrorCode::not_found);
  EXPECT_EQ(move(book, row, 1, 9, "").error().code, ErrorCode::out_of_range);
  ASSERT_TRUE(move(book, row, 1, 4, "hot spot").ok());
  EXPECT_EQ(held(row).at(4)->thing.charge, a.charge);
  ASSERT_TRUE(swap(book, row, 2, 4, "taken out the wrong way round").ok());
  EXPECT_EQ(held(row).at(2)->thing.charge, a.charge);
  EXPECT_EQ(held(row).at(4)->thing.charge, b.charge);
  EXPECT_EQ(swap(book, row, 2, 3, "").error().code, ErrorCode::not_found);
  ASSERT_TRUE(clear(book, row, 4, "cupel cracked").ok());
  EXPECT_EQ(positions(row), std::vector<std::int64_t>{2});
  EXPECT_EQ(clear(book, row, 4, "").error().code, ErrorCode::not_found);
}

TEST_F(Trays, AGestureIsTakenBackWhole) {
  const auto a = charge(), b = charge();
  ASSERT_TRUE(place(book, row, 1, {a.charge, {}, {}}).ok());
  ASSERT_TRUE(place(book, row, 2, {b.charge, {}, {}}).ok());
  ASSERT_TRUE(swap(book, row, 1, 2, "swapped").ok());
  ASSERT_TRUE(book.undo().ok());
  EXPECT_EQ(held(row).at(1)->thing.charge, a.charge);
  EXPECT_EQ(held(row).at(2)->thing.charge, b.charge);
  ASSERT_TRUE(book.redo().ok());
  EXPECT_EQ(held(row).at(1)->thing.charge, b.charge);
}

TEST_F(Trays, ATrayIsCarriedOnAsItStands) {
  const auto a = charge(), b = charge();
  const TrayId pots = *lay_out(book, {"pots", Kind::crucible, {2, 3}});
  ASSERT_TRUE(place(book, pots, 2, {a.charge, {}, {}}).ok());
  ASSERT_TRUE(place(book, pots, 6, {b.charge, {}, {}}).ok());
  ASSERT_TRUE(place(book, pots, 4, {{}, {}, "flux blank"}).ok());
  const TrayId small = *lay_out(book, {"small", Kind::mould, {1, 4}});
  EXPECT_EQ(carry_on(book, pots, small).error().code, ErrorCode::out_of_range);
  EXPECT_TRUE(positions(small).empty()) << "all of it or nothing";
  ASSERT_TRUE(carry_on(book, pots, row).ok());
  EXPECT_EQ(positions(row), (std::vector<std::int64_t>{2, 4, 6}));
  EXPECT_EQ(positions(pots), positions(row)) << "where it stood stays readable";
  EXPECT_EQ(where_is(*connection, {a.charge, {}, {}})->size(), 2u);
}

TEST_F(Trays, APutAwayTrayLetsGoOfItsCharges) {
  const auto a = charge();
  ASSERT_TRUE(place(book, row, 1, {a.charge, {}, {}}).ok());
  ASSERT_TRUE(put_away(book, row).ok());
  EXPECT_EQ(place(book, row, 2, {{}, {}, "blank"}).error().code, ErrorCode::conflict);
  EXPECT_TRUE(trays_in_use(*connection)->empty());
  const TrayId next = *lay_out(book, {"afternoon", Kind::cupel, {}});
  ASSERT_TRUE(place(book, next, 1, {a.charge, {}, {}}).ok());
  EXPECT_EQ(put_away(book, row, false).error().code, ErrorCode::conflict);
  EXPECT_EQ(positions(row), std::vector<std::int64_t>{1});
}

TEST_F(Trays, AGridShrinksOnlyWhereNothingStands) {
  ASSERT_TRUE(place(book, row, 5, {charge().charge, {}, {}}).ok());
  EXPECT_EQ(set_grid(book, row, {1, 4}).error().code, ErrorCode::conflict);
  EXPECT_EQ(set_grid(book, row, {0, 4}).error().code, ErrorCode::out_of_range);
  ASSERT_TRUE(set_grid(book, row, {1, 5}).ok());
  EXPECT_EQ(held(row).grid.size(), 5);
}

TEST_F(Trays, AreFoundByName) {
  EXPECT_EQ(*tray_by_name(*connection, " cupels of the morning "), row);
  EXPECT_EQ(tray_by_name(*connection, "none").error().code, ErrorCode::not_found);
  ASSERT_TRUE(lay_out(book, {"cupels of the morning", Kind::bead, {}}).ok());
  EXPECT_EQ(tray_by_name(*connection, "cupels of the morning").error().code, ErrorCode::ambiguous);
}

TEST_F(Trays, ASwapIsTakenBackWithItsReasonAndBothStayReadable) {
  const auto a = charge(), b = charge();
  ASSERT_TRUE(place(book, row, 1, {a.charge, {}, {}}).ok());
  ASSERT_TRUE(place(book, row, 2, {b.charge, {}, {}}).ok());
  EXPECT_TRUE(shifts_of(*connection, row)->empty()) << "putting down is no move";
  ASSERT_TRUE(swap(book, row, 1, 2, "drawn in the wrong order").ok());
  const auto shifts = shifts_of(*connection, row);
  ASSERT_EQ(shifts->size(), 1u);
  EXPECT_EQ(shifts->front().kind, ShiftKind::swapped);
  EXPECT_EQ(shifts->front().why, "drawn in the wrong order");
  EXPECT_EQ(shifts->front().who, "HM");
  EXPECT_EQ(held(row).at(2)->first_position(), 1);
  EXPECT_EQ(take_back(book, row, shifts->front(), " ").error().code, ErrorCode::missing_key);
  ASSERT_TRUE(take_back(book, row, shifts->front(), "it was the next tray").ok());
  EXPECT_EQ(held(row).at(1)->thing.charge, a.charge);
  ASSERT_EQ(shifts_of(*connection, row)->size(), 2u);
  EXPECT_EQ(shifts_of(*connection, row)->back().why, "it was the next tray");
}

TEST_F(Trays, AMoveIsTakenBackWhereItsPlaceIsStillFree) {
  const auto a = charge();
  ASSERT_TRUE(place(book, row, 1, {a.charge, {}, {}}).ok());
  ASSERT_TRUE(move(book, row, 1, 4, "cracked cupel").ok());
  const Shift moved = shifts_of(*connection, row)->front();
  EXPECT_EQ(std::pair(moved.from, moved.to), std::pair(std::int64_t{1}, std::int64_t{4}));
  ASSERT_TRUE(place(book, row, 1, {{}, {}, "blank"}).ok());
  EXPECT_EQ(take_back(book, row, moved, "no").error().code, ErrorCode::conflict);
  ASSERT_TRUE(clear(book, row, 1, "not a blank").ok());
  EXPECT_EQ(shifts_of(*connection, row)->back().kind, ShiftKind::cleared);
  EXPECT_EQ(take_back(book, row, shifts_of(*connection, row)->back(), "no").error().code, ErrorCode::out_of_range);
  ASSERT_TRUE(take_back(book, row, moved, "no").ok());
  EXPECT_EQ(positions(row), std::vector<std::int64_t>{1});
}

TEST_F(Trays, ARunTakesEverythingOnATray) {
  const auto a = charge();
  ASSERT_TRUE(place(book, row, 1, {a.charge, {}, {}}).ok());
  ASSERT_TRUE(place(book, row, 2, {{}, {}, "blank"}).ok());
  const FurnaceRunId fusion = *fire::start_run(book, {{}, "fusion", person});
  const FurnaceRunId cupellation = *fire::start_run(book, {{}, "cupellation", person});
  EXPECT_EQ(load_into(book, row, fusion).error().code, ErrorCode::conflict) << "cupels";
  ASSERT_TRUE(load_into(book, row, cupellation).ok());
  EXPECT_EQ(held(row).run, cupellation);
  EXPECT_EQ(fire::charge(*connection, a.charge)->cupellation_run, cupellation);
  EXPECT_FALSE(fire::charge(*connection, a.charge)->fusion_run);
  EXPECT_EQ(load_into(book, *lay_out(book, {"beads", Kind::bead, {}}), cupellation).error().code, ErrorCode::conflict);
  ASSERT_TRUE(load_into(book, row, {}).ok());
  EXPECT_FALSE(fire::charge(*connection, a.charge)->cupellation_run);
}

TEST_F(Trays, ThingsAreCalledByTheirLabels) {
  const auto a = charge(), b = charge();
  const auto panned = pan();
  (void)cut("30 g", "fire");
  EXPECT_EQ(thing_called(*connection, " 26-0001/2 ")->charge, b.charge);
  EXPECT_EQ(thing_called(*connection, "26-0001/3")->bead, panned.bead);
  EXPECT_EQ(thing_called(*connection, "rock blank")->control, "rock blank");
  EXPECT_EQ(thing_called(*connection, "26-0001").error().code, ErrorCode::ambiguous);
  EXPECT_EQ(thing_called(*connection, "26-0001/4").error().code, ErrorCode::missing_key) << "in no crucible";
  EXPECT_EQ(thing_called(*connection, "26-0001/9").error().code, ErrorCode::not_found);
  EXPECT_EQ(thing_called(*connection, "2nd blank").error().code, ErrorCode::not_found) << "could be a number mistyped";
  EXPECT_EQ(thing_called(*connection, "  ").error().code, ErrorCode::missing_key);
  EXPECT_EQ(called(*connection, {a.charge, {}, {}})->label, "26-0001/1");
  EXPECT_EQ(called(*connection, {{}, panned.bead, {}})->label, "26-0001/3");
  EXPECT_EQ(called(*connection, {a.charge, {}, {}})->mark, "Larch adit N");
  EXPECT_EQ(called(*connection, {{}, {}, "rock blank"})->label, "rock blank");
}

TEST_F(Trays, WhatWaitsFillsTheFreePositionsInOneGesture) {
  const auto a = charge(), b = charge(), c = charge();
  ASSERT_TRUE(place(book, row, 2, {b.charge, {}, {}}).ok());
  const auto waiting = *without_place(*connection, Kind::cupel, 9);
  ASSERT_EQ(waiting.size(), 2u);
  ASSERT_TRUE(place_all(book, row, waiting).ok());
  EXPECT_EQ(held(row).at(1)->thing.charge, a.charge);
  EXPECT_EQ(held(row).at(3)->thing.charge, c.charge);
  EXPECT_TRUE(without_place(*connection, Kind::cupel, 9)->empty());
  ASSERT_TRUE(book.undo().ok());
  EXPECT_EQ(positions(row), std::vector<std::int64_t>{2});
  const TrayId small = *lay_out(book, {"one", Kind::mould, {1, 2}});
  EXPECT_EQ(place_all(book, small, *without_place(*connection, Kind::mould, 9)).error().code, ErrorCode::conflict);
  EXPECT_TRUE(held(small).places.empty()) << "nothing unless all of it fits";
}

TEST_F(Trays, ANewTrayTakesEverythingOn) {
  const auto a = charge();
  ASSERT_TRUE(place(book, row, 4, {a.charge, {}, {}}).ok());
  const TrayId beads = *carry_on_to_new(book, row, Kind::bead);
  EXPECT_EQ(held(beads).at(4)->thing.charge, a.charge);
  EXPECT_EQ(held(beads).grid.columns, 6);
  EXPECT_TRUE(held(beads).name.starts_with("beads 2026-05-04")) << held(beads).name;
  EXPECT_EQ(carry_on_to_new(book, beads, Kind::cupel).error().code, ErrorCode::conflict) << "no way back";
  EXPECT_EQ(set_kind(book, row, Kind::mould).error().code, ErrorCode::conflict);
}

std::vector<std::size_t> broken(const std::vector<std::int64_t>& to) {
  std::vector<Carried> carried;
  for (std::size_t i = 0; i < to.size(); ++i) carried.push_back({std::int64_t(i) + 1, to[i]});
  return out_of_order(carried);
}

TEST(TrayOrder, NamesWhatChangedPlaces) {
  using testing::ElementsAre;
  using testing::IsEmpty;
  EXPECT_THAT(broken({}), IsEmpty());
  EXPECT_THAT(broken({1, 2, 3, 4}), IsEmpty());
  EXPECT_THAT(broken({2, 5, 6, 9}), IsEmpty()) << "gaps closed up or left";
  EXPECT_THAT(broken({1, 3, 2, 4}), ElementsAre(1, 2)) << "neighbours";
  EXPECT_THAT(broken({1, 2, 9, 4, 5, 6, 7, 8, 3}), ElementsAre(2, 8)) << "far apart: the others are left in peace";
  EXPECT_THAT(broken({2, 3, 4, 5, 1}), ElementsAre(4)) << "one went to the front";
}

// Swapping two of a tray in order names these two and nobody else, however far apart, in whatever order they are told.
RC_GTEST_PROP(TrayOrderLaw, ASwapNamesTheTwo, ()) {
  const int n = *rc::gen::inRange(2, 40);
  const int a = *rc::gen::inRange(0, n), b = *rc::gen::inRange(0, n);
  RC_PRE(a != b && (n > 3 || std::abs(a - b) < n - 1));
  std::vector<std::int64_t> to;
  for (int i = 0; i < n; ++i) to.push_back(i + 1);
  std::swap(to[std::size_t(a)], to[std::size_t(b)]);
  RC_PRE(std::abs(a - b) != 2);  // the one between may be as odd as the two: three in reverse
  const auto odd = broken(to);
  RC_ASSERT(odd == (std::vector<std::size_t>{std::size_t(std::min(a, b)), std::size_t(std::max(a, b))}));
}

// Whatever is placed, moved, swapped, cleared and taken back, in whatever order, refused or not: no position holds two
// things, no thing stands twice on trays of one kind, and all stand on the grid.
RC_GTEST_PROP(TraysLaw, EveryThingIsInAtMostOnePlace, ()) {
  Bench bench;
  std::vector<ChargeId> charges;
  for (int i = 0; i < 4; ++i) charges.push_back(bench.charge().charge);
  const std::vector<TrayId> trays{bench.row, *lay_out(bench.book, {"second", Kind::cupel, {2, 2}}),
                                  *lay_out(bench.book, {"moulds", Kind::mould, {1, 5}})};
  const auto gestures = *rc::gen::resize(25, rc::gen::container<std::vector<int>>(rc::gen::inRange(0, 6 * 3 * 4 * 9 * 9)));
  for (int code : gestures) {
    const auto next = [&code](int of) {
      const int value = code % of;
      code /= of;
      return value;
    };
    const int what = next(6);
    const TrayId tray = trays[std::size_t(next(3))];
    const ChargeId charge = charges[std::size_t(next(4))];
    const std::int64_t a = next(9), b = next(9);
    if (what == 0 || what == 5) (void)place(bench.book, tray, a, {charge, {}, {}});
    if (what == 1) (void)move(bench.book, tray, a, b, "law");
    if (what == 2) (void)swap(bench.book, tray, a, b, "law");
    if (what == 3) (void)clear(bench.book, tray, a, "law");
    if (what == 4) (void)bench.book.undo();
  }
  std::map<std::pair<Kind, ChargeId>, int> stands;
  for (const TrayId id : trays) {
    const auto held = tray(*bench.connection, id);
    if (!held.ok()) continue;  // its laying out was taken back
    std::map<std::int64_t, int> taken;
    for (const Place& one : held->places) {
      RC_ASSERT(held->grid.holds(one.position));
      RC_ASSERT(++taken[one.position] == 1);
      RC_ASSERT(++stands[std::pair(held->kind, one.thing.charge)] == 1);
    }
  }
}

}  // namespace
}  // namespace prillbook::trays
