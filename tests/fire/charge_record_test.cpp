// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/fire/charge_record.h"

#include <gtest/gtest.h>

#include "tests/support/records.h"

namespace prillbook::fire {
namespace {

using testing_support::LabWithSample;

TEST(Charge, OnlyASpoiledChargeIsRepeated) {
  LabWithSample<> lab;
  const auto first = start_charge(lab.book, {*lab.cut("30 g", "fire"), {}, lab.person, {}, {}, {}});
  ASSERT_TRUE(first.ok());
  const auto second_portion = lab.cut("30 g", "fire");
  EXPECT_EQ(start_charge(lab.book, {*second_portion, {}, lab.person, first->charge, {}, {}}).error().code,
            ErrorCode::inconsistent);
  ASSERT_TRUE(set_spoiled(lab.book, first->charge, "boiled over").ok());
  const auto repeat = start_charge(lab.book, {*second_portion, {}, lab.person, first->charge, {}, {}});
  ASSERT_TRUE(repeat.ok()) << repeat.error().detail;
  EXPECT_EQ(charge(*lab.connection, repeat->charge)->repeat_of, first->charge);
  EXPECT_EQ(charge(*lab.connection, first->charge)->spoiled, "boiled over");
}

TEST(Charge, APortionGoesIntoOneCrucible) {
  LabWithSample<> lab;
  const auto portion = lab.cut("30 g", "fire");
  ASSERT_TRUE(start_charge(lab.book, {*portion, {}, lab.person, {}, {}, {}}).ok());
  EXPECT_EQ(start_charge(lab.book, {*portion, {}, lab.person, {}, {}, {}}).error().code, ErrorCode::already_exists);
}

}  // namespace
}  // namespace prillbook::fire
