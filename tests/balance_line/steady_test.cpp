// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/balance_line/steady.h"

#include <gtest/gtest.h>

namespace prillbook::balance_line {
namespace {

struct Streaming : testing::Test {
  SteadyReadings readings;

  void send(const std::string& milligrams, int times = 1, Stability stability = Stability::stable) {
    for (int i = 0; i < times; ++i)
      readings.see({stability, milligrams + " mg", true, milligrams.starts_with('-')}, std::stod(milligrams) / 1000);
  }
};

TEST_F(Streaming, ARunOfEqualLinesIsOneReading) {
  send("0.000", 9);
  EXPECT_TRUE(readings.is_steady());
  EXPECT_FALSE(readings.is_reading()) << "an empty balance is none";
  send("11.2", 2, Stability::moving);
  send("22.013");
  send("22.014", SteadyReadings::lines_of_a_run - 1);
  EXPECT_FALSE(readings.may_be_taken());
  send("22.014");
  EXPECT_TRUE(readings.may_be_taken());
  EXPECT_TRUE(readings.may_enter_itself());
}

TEST_F(Streaming, WhatLiesThereStillIsNeverASecondReading) {
  send("0.000", 9);
  send("22.014", 9);
  readings.taken();
  send("22.014", 50);
  EXPECT_FALSE(readings.may_be_taken());
  send("22.015", 50);
  EXPECT_FALSE(readings.may_be_taken()) << "the last digit wandered";
  send("22.1", 3, Stability::moving);
  send("22.013", 50);
  EXPECT_FALSE(readings.may_be_taken()) << "somebody leaned on the bench";
  send("0.002", 1);
  send("22.014", 9);
  EXPECT_TRUE(readings.may_enter_itself()) << "the next bead weighs the same";
}

TEST_F(Streaming, TheBalanceNeverStoodAtZeroBetween) {
  send("0.000", 9);
  send("22.014", 9);
  readings.taken();
  send("3.1", 2, Stability::moving);
  send("1.502", 9);
  EXPECT_TRUE(readings.may_enter_itself());
}

TEST_F(Streaming, NothingEntersItselfBeforeTheBalanceWasSeenEmpty) {
  send("22.014", 9);
  EXPECT_FALSE(readings.may_enter_itself());
  EXPECT_TRUE(readings.may_be_taken()) << "by a key";
  send("-0.001", 1);
  send("22.014", 9);
  EXPECT_TRUE(readings.may_enter_itself());
}

TEST_F(Streaming, ACupIsNoReadingOnceItsMassIsKnown) {
  readings.set_rest(0.490301);
  send("490.301", 9);
  EXPECT_FALSE(readings.is_reading());
  send("490.324", 9);
  EXPECT_TRUE(readings.may_enter_itself()) << "a bead of 0.023 mg in it";
  readings.taken();
  send("490.325", 9);
  EXPECT_FALSE(readings.may_be_taken());
  send("490.301", 2);
  send("490.325", 9);
  EXPECT_TRUE(readings.may_enter_itself());
}

TEST_F(Streaming, OverloadAndNoiseAreNoRun) {
  send("0.000", 9);
  for (int i = 0; i < 9; ++i) readings.see({Stability::overload, {}, false, false}, std::nullopt);
  EXPECT_FALSE(readings.is_steady());
  EXPECT_FALSE(readings.may_be_taken());
}

}  // namespace
}  // namespace prillbook::balance_line
