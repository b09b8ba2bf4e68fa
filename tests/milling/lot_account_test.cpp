// SPDX-License-Identifier: GPL-3.0-or-later
// The account of a lot milled for its owner: a printed balance, the laws it has to keep, and what is open.
#include "core/milling/lot_account.h"

#include <gtest/gtest.h>

#include "core/history/fields.h"
#include "core/units/units.h"
#include "tests/support/records.h"

namespace prillbook::milling {
namespace {

using testing_support::figure;

MillingLot whole_lot() {
  MillingLot lot;
  lot.mass = figure("1000 kg");
  lot.moisture = figure("5 %", Measure::share);
  lot.head = figure("20.0 g/t", Measure::grade);
  lot.concentrate = figure("10.0 kg");
  lot.concentrate_gold = figure("400 g/t", Measure::grade);
  lot.bullion = figure("15.00 g");
  lot.bullion_fineness = figure("800", Measure::fineness);
  lot.tail_gold = figure("2.0 g/t", Measure::grade);
  lot.owner_share = figure("70 %", Measure::share);
  return lot;
}

// New Zealand Mines Report 1893, C-3, p. 16 (scanned text, read with a gap): of 100 in the head 93.0 were recovered, 5.7
// stayed in the tailings and 1.3 were unaccounted for. The same lines out of a lot that was made to hold those shares.
TEST(LotAccount, ThePrintedBalanceHasTheseLines) {
  MillingLot lot;
  lot.mass = figure("1000 kg");
  lot.head = figure("100.0 g/t", Measure::grade);
  lot.bullion = figure("93.00 g");
  lot.bullion_fineness = figure("1000", Measure::fineness);
  lot.tail_gold = figure("5.700 g/t", Measure::grade);
  const LotAccount account = account_of(lot, {}).value();
  EXPECT_NEAR(account.head->value, 100.0, 1e-9);
  EXPECT_NEAR(account.unaccounted->value, 1.3, 0.001);
  EXPECT_NEAR(account.accounted_pct->value, 98.7, 0.001);
}

// The same report: gold of the head 26 oz 2 dwt 10 gr, of the tail 1 oz 5 dwt 5 gr; recovered 95.1 of 100 as printed.
TEST(LotAccount, RecoveryByTheTailAsPrinted) {
  const double head_gr = 26 * 480 + 2 * 24 + 10, tail_gr = 1 * 480 + 5 * 24 + 5;
  EXPECT_NEAR(100 * (1 - tail_gr / head_gr), 95.1, 0.1);
}

TEST(LotAccount, DryMassTailAndSplit) {
  const LotAccount account = account_of(whole_lot(), {}).value();
  EXPECT_NEAR(account.dry->in(unit::kilogram), 950, 1e-9);
  EXPECT_NEAR(account.tail->in(unit::kilogram), 940, 1e-9);
  EXPECT_NEAR(account.head->value, 19.0, 1e-9);
  EXPECT_NEAR(account.concentrate->value, 4.0, 1e-9);
  EXPECT_NEAR(account.bullion->value, 12.0, 1e-9);
  EXPECT_NEAR(account.tail_gold->value, 1.88, 1e-9);
  EXPECT_NEAR(account.accounted->value + account.unaccounted->value, account.head->value, 1e-9);
  EXPECT_NEAR(account.owner->value + account.mill->value, account.bullion->value, 1e-9);
  EXPECT_NEAR(account.owner->value, 8.4, 1e-9);
  EXPECT_GT(account.unaccounted->u, account.head->u);
}

TEST(LotAccount, WhatIsNotWrittenIsOpen) {
  EXPECT_FALSE(account_of({}, {})->dry);
  MillingLot lot = whole_lot();
  lot.concentrate_gold = {};
  const LotAccount unassayed = account_of(lot, {}).value();
  EXPECT_TRUE(unassayed.concentrate_open);
  EXPECT_FALSE(unassayed.accounted) << "gold that was not looked for is not zero";
  EXPECT_TRUE(unassayed.owner) << "the split rests on the bullion alone";
  lot = whole_lot();
  lot.head = {};
  EXPECT_FALSE(account_of(lot, {})->head);
  const LotAccount by_fire = account_of(lot, Measured{20, 1}).value();
  EXPECT_TRUE(by_fire.head_by_fire);
  EXPECT_NEAR(by_fire.head->value, 19.0, 1e-9);
  EXPECT_NEAR(by_fire.head->u, 0.95, 0.01) << "1 g/t of 950 kg, the balance adds next to nothing";
}

TEST(LotAccount, AConcentrateHeavierThanTheLotIsRefused) {
  MillingLot lot = whole_lot();
  lot.concentrate = figure("960 kg");
  EXPECT_EQ(account_of(lot, {}).error().code, ErrorCode::inconsistent);
}

TEST(LotAccount, BelowDetectionIsHalfItsLimit) {
  MillingLot lot = whole_lot();
  lot.tail_gold = figure("<0.2 g/t", Measure::grade);
  EXPECT_NEAR(account_of(lot, {})->tail_gold->value, 0.094, 1e-9);
  lot.tail_gold = figure("none", Measure::grade);
  EXPECT_EQ(account_of(lot, {})->tail_gold->value, 0);
}

struct MillingLots : ::testing::Test, testing_support::LabWithSample<> {};

TEST_F(MillingLots, ASampleStandsForOneLot) {
  EXPECT_FALSE(lot_of(*connection, sample)->has_value());
  const MillingLotId id = begin_lot(book, sample).value();
  EXPECT_EQ(begin_lot(book, sample).error().code, ErrorCode::already_exists);
  EXPECT_EQ(begin_lot(book, SampleId{99}).error().code, ErrorCode::not_found);
  namespace f = history::fields::milling_lot;
  ASSERT_TRUE(readings::enter(book, f::mass, id.value, readings::cell_of(figure("812 kg"))).ok());
  ASSERT_TRUE(readings::enter(book, f::agreement, id.value, std::string("a third to the mill")).ok());
  const MillingLot lot = lot_of(*connection, sample)->value();
  EXPECT_EQ(lot.mass->typed, "812 kg");
  EXPECT_EQ(lot.agreement, "a third to the mill");
}

}  // namespace
}  // namespace prillbook::milling
