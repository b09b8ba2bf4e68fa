// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/gravity/pan_test.h"

#include <gtest/gtest.h>

#include "tests/support/records.h"

namespace prillbook::gravity {
namespace {

using testing_support::figure;
using testing_support::LabWithSample;

TEST(PanTest, BringsItsBeadAndItsProductsAsPortions) {
  LabWithSample<> lab;
  const auto portion = lab.cut("1 kg", "pan");
  const auto started = start_pan_test(lab.book, {*portion, {}, lab.person, figure("300 um", Measure::opening)});
  ASSERT_TRUE(started.ok()) << started.error().detail;
  EXPECT_TRUE(started->bead);
  ASSERT_TRUE(weigh_product(lab.book, started->test, "remainder", figure("18.4 g"), lab.person).ok());
  const auto tail = weigh_product(lab.book, started->test, "tail", figure("970 g"), lab.person);
  ASSERT_TRUE(tail.ok());
  const auto again = weigh_product(lab.book, started->test, "tail", figure("975 g"), lab.person, "misread");
  EXPECT_EQ(*again, *tail) << "a second weighing corrects the first";
  EXPECT_EQ(portions::portions_of(*lab.connection, lab.sample)->size(), 3u);
  EXPECT_EQ(weigh_product(lab.book, started->test, "tail", figure("1200 g"), lab.person).error().code, ErrorCode::overdrawn);
  EXPECT_EQ(weigh_product(lab.book, started->test, "pan", figure("1 g"), lab.person).error().code, ErrorCode::out_of_range);
}

TEST(PanTest, APortionIsPannedOnce) {
  LabWithSample<> lab;
  const auto portion = lab.cut("1 kg", "pan");
  ASSERT_TRUE(start_pan_test(lab.book, {*portion, {}, lab.person, {}}).ok());
  EXPECT_EQ(start_pan_test(lab.book, {*portion, {}, lab.person, {}}).error().code, ErrorCode::already_exists);
}

TEST(PanTest, StartingIsOneGestureAndOneUndo) {
  LabWithSample<> lab;
  const auto portion = lab.cut("1 kg", "pan");
  ASSERT_TRUE(start_pan_test(lab.book, {*portion, {}, lab.person, {}}).ok());
  ASSERT_TRUE(lab.book.undo().ok());
  EXPECT_TRUE(pan_tests_of(*lab.connection, *portion)->empty());
  EXPECT_TRUE(start_pan_test(lab.book, {*portion, {}, lab.person, {}}).ok());
}

}  // namespace
}  // namespace prillbook::gravity
