// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/gravity/panning.h"

#include <gtest/gtest.h>

#include "core/gravity/pan_test.h"
#include "core/history/fields.h"
#include "core/units/units.h"
#include "tests/support/records.h"

namespace prillbook::gravity {
namespace {

using testing_support::figure;
using testing_support::LabWithSample;

struct PanningTest : testing::Test, LabWithSample<> {
  PortionId portion = cut("1 kg", "pan").value();
  PanTestId test = start_pan_test(book, {portion, {}, person, {}})->test;
};

TEST_F(PanningTest, OneAfterTheOther) {
  ASSERT_TRUE(add_panning(book, {test, "first", {}, person, figure("60 g")}).ok());
  const auto second = add_panning(book, {test, "repan", {}, person, {}});
  ASSERT_TRUE(second.ok());
  ASSERT_TRUE(add_panning(book, {test, "clean_up", {}, {}, {}}).ok());
  const auto list = pannings_of(*connection, test);
  ASSERT_EQ(list->size(), 3u);
  EXPECT_EQ((*list)[0].kind, "first");
  EXPECT_EQ((*list)[0].concentrate->mass(), Mass(60, unit::gram));
  EXPECT_EQ((*list)[2].number, 3);
  EXPECT_FALSE((*list)[2].panned_by);
  ASSERT_TRUE(set_concentrate(book, *second, figure("12 g")).ok());
  EXPECT_EQ((*pannings_of(*connection, test))[1].concentrate->typed, "12 g");
}

TEST_F(PanningTest, TheFirstPanIsNotedOnce) {
  ASSERT_TRUE(add_panning(book, {test, "first", {}, person, {}}).ok());
  EXPECT_EQ(add_panning(book, {test, "first", {}, person, {}}).error().code, ErrorCode::already_exists);
}

TEST_F(PanningTest, RefusesWhatCannotBe) {
  EXPECT_EQ(add_panning(book, {test, "sluice", {}, person, {}}).error().code, ErrorCode::out_of_range);
  EXPECT_EQ(add_panning(book, {test, "first", {}, person, figure("2 kg")}).error().code, ErrorCode::inconsistent);
  EXPECT_EQ(add_panning(book, {PanTestId{99}, "first", {}, person, {}}).error().code, ErrorCode::not_found);
  ASSERT_TRUE(set_spoiled(book, test, "the tub was upset").ok());
  EXPECT_EQ(add_panning(book, {test, "first", {}, person, {}}).error().code, ErrorCode::conflict);
  EXPECT_TRUE(pannings_of(*connection, test)->empty());
}

TEST_F(PanningTest, ANumberStruckOutIsNotGivenAgain) {
  const auto first = add_panning(book, {test, "first", {}, person, {}});
  ASSERT_TRUE(readings::strike_out(book, history::Entity::panning, first->value, "noted by mistake").ok());
  ASSERT_TRUE(add_panning(book, {test, "first", {}, person, {}}).ok());
  EXPECT_EQ(pannings_of(*connection, test)->front().number, 2);
}

TEST_F(PanningTest, WaitingAndMade) {
  EXPECT_EQ(count_waiting_to_pan(*connection).value(), 0);
  EXPECT_EQ(pan_tests_made(*connection, 10)->size(), 1u);
  const auto other = cut("500 g", "pan");
  cut("500 g", "fire").value();
  ASSERT_EQ(count_waiting_to_pan(*connection).value(), 1);
  EXPECT_EQ(waiting_to_pan(*connection, 10)->front().portion, *other);
}

TEST_F(PanningTest, AGrindTypedForgetsWhereItWasCopiedFrom) {
  const SieveAnalysisId from{
      book.record_for<RecordId>(
              "sieve",
              [&](history::ChangeSet& set) {
                return set.make(history::Entity::sieve_analysis, {{history::fields::sieve_analysis::portion, portion.value}});
              })
          .value()};
  ASSERT_TRUE(set_grind(book, test, figure("212 um", Measure::opening), from).ok());
  EXPECT_EQ(pan_test(*connection, test)->grind_from, from);
  ASSERT_TRUE(set_grind(book, test, figure("300 um", Measure::opening)).ok());
  EXPECT_FALSE(pan_test(*connection, test)->grind_from);
  EXPECT_EQ(pan_test(*connection, test)->grind->typed, "300 um");
}

}  // namespace
}  // namespace prillbook::gravity
