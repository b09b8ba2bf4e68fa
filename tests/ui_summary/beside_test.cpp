// SPDX-License-Identifier: GPL-3.0-or-later
// Work beside the window: newer drops older, a stop ends it, nobody is called once the owner is gone.
#include "ui/summary/beside.h"

#include <gtest/gtest.h>

#include <QtCore/QThread>

#include "tests/support/wait.h"

namespace prillbook::ui {
namespace {

using testing_support::wait_until;

// Goes on until it is stopped.
Beside::Work endless(std::atomic<int>& stopped, std::function<void()> give = {}) {
  return [&stopped, give](const Watch& watch) {
    while (!watch.stopped()) {
      watch.tell(1, 2);
      QThread::msleep(1);
    }
    ++stopped;
    return give;
  };
}

TEST(Beside, NewerWorkDropsTheOlder) {
  Beside beside;
  std::atomic<int> stopped = 0;
  int older = 0, newer = 0;
  beside.begin(endless(stopped, [&] { ++older; }));
  beside.begin([](const Watch&) { return [] { FAIL() << "the one between is never done"; }; });
  beside.begin([&](const Watch&) { return [&] { ++newer; }; });
  ASSERT_TRUE(wait_until([&] { return !beside.busy(); }));
  EXPECT_EQ(stopped, 1);
  EXPECT_EQ(older, 0);
  EXPECT_EQ(newer, 1);
  EXPECT_FALSE(beside.busy());
}

TEST(Beside, AStopIsAnsweredAndProgressTold) {
  Beside beside;
  int percent = 0;
  QObject::connect(&beside, &Beside::progressed, [&](int at) { percent = at; });
  std::atomic<int> stopped = 0;
  int given = 0;
  beside.begin(endless(stopped, [&] { ++given; }));
  ASSERT_TRUE(wait_until([&] { return percent == 50; }));
  beside.stop();
  ASSERT_TRUE(wait_until([&] { return !beside.busy(); }));
  EXPECT_EQ(given, 1) << "what was stopped says so itself";
}

TEST(Beside, WhatIsDroppedGivesNothing) {
  Beside beside;
  std::atomic<int> stopped = 0;
  beside.begin(endless(stopped, [] { FAIL(); }));
  beside.drop();
  ASSERT_TRUE(wait_until([&] { return !beside.busy(); }));
  EXPECT_EQ(stopped, 1);
}

TEST(Beside, TheOwnerGoesWhileItRuns) {
  std::atomic<int> stopped = 0;
  {
    Beside beside;
    beside.begin(endless(stopped, [] { FAIL(); }));
  }
  EXPECT_EQ(stopped, 1);
}

}  // namespace
}  // namespace prillbook::ui
