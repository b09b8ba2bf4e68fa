// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/gravity/metallics_record.h"

#include <gtest/gtest.h>

#include "core/units/units.h"
#include "tests/support/records.h"

namespace prillbook::gravity {
namespace {

using testing_support::figure;
using testing_support::LabWithSample;

struct MetallicsRecord : testing::Test, LabWithSample<> {
  PortionId portion = cut("400 g", "metallics").value();
};

TEST_F(MetallicsRecord, TiesTheCoarseAndTheFinePart) {
  const auto made =
      start_metallics(book, {portion, figure("106 um", Measure::opening), figure("1 g"), figure("399 g"), {}, person});
  ASSERT_TRUE(made.ok()) << made.error().detail;
  const auto coarse = portions::portion(*connection, made->coarse);
  EXPECT_EQ(coarse->parent, portion);
  EXPECT_EQ(coarse->remarks, "+106 µm");
  EXPECT_EQ(portions::portion(*connection, made->fine)->mass->mass(), Mass(399, unit::gram));
  EXPECT_EQ(metallics_of(*connection, portion)->size(), 1u);
}

TEST_F(MetallicsRecord, IsOneGestureAndOneUndo) {
  ASSERT_TRUE(start_metallics(book, {portion, {}, figure("1 g"), figure("399 g"), {}, person}).ok());
  ASSERT_TRUE(book.undo().ok());
  EXPECT_TRUE(metallics_of(*connection, portion)->empty());
  EXPECT_EQ(portions::portions_of(*connection, sample)->size(), 1u);
}

TEST_F(MetallicsRecord, RefusesWhatCannotBe) {
  EXPECT_EQ(start_metallics(book, {portion, {}, {}, figure("399 g"), {}, person}).error().field, "metallics.coarse");
  EXPECT_EQ(start_metallics(book, {portion, {}, figure("1 g"), {}, {}, person}).error().field, "metallics.fine");
  EXPECT_EQ(start_metallics(book, {portion, {}, figure("20 g"), figure("399 g"), {}, person}).error().code, ErrorCode::overdrawn);
  EXPECT_EQ(portions::portions_of(*connection, sample)->size(), 1u) << "nothing is left of what was refused";
  ASSERT_TRUE(start_metallics(book, {portion, {}, figure("1 g"), figure("399 g"), {}, person}).ok());
  EXPECT_EQ(start_metallics(book, {portion, {}, figure("1 g"), figure("399 g"), {}, person}).error().code,
            ErrorCode::already_exists);
}

}  // namespace
}  // namespace prillbook::gravity
