// SPDX-License-Identifier: GPL-3.0-or-later
// A tray filled, moved on and carried on by keyboard.
#include <gmock/gmock.h>

#include <QtGui/QShortcut>
#include <QtWidgets/QLabel>

#include "core/fire/charge_record.h"
#include "core/fire/runs.h"
#include "core/gravity/pan_test.h"
#include "core/trays/filling.h"
#include "core/trays/shifts.h"
#include "tests/support/window_hand.h"
#include "ui/furnace/furnace_station.h"
#include "ui/furnace/tray_grid.h"
#include "ui/kit/reason_line.h"

namespace prillbook::ui {
namespace {

using namespace testing_support;
using testing::ElementsAre;

struct TrayBench : WithApplication, testing::Test, LabWithSample<> {
  Desk desk{*connection, book};
  std::vector<ChargeId> charges;
  std::unique_ptr<FurnaceStation> station;

  TrayBench() {
    for (int i = 0; i < 3; ++i)
      charges.push_back(fire::start_charge(book, {*cut("30 g", "fire"), {}, person, {}, {}, {}})->charge);
    station = std::make_unique<FurnaceStation>(desk.session);
    QObject::connect(&desk.notifier, &Notifier::written, station.get(),
                     [this](const auto& written) { station->notebook_changed(written); });
    show(*station);
  }
  void click(const QString& words) {
    QAbstractButton* found = button(*station, words);
    ASSERT_NE(found, nullptr) << words.toStdString();
    found->click();
    settle();
  }
  trays::Tray tray() { return trays::trays_in_use(*connection)->back(); }
  std::vector<std::int64_t> positions() {
    std::vector<std::int64_t> list;
    for (const trays::Place& one : tray().places) list.push_back(one.position);
    return list;
  }
  std::string error_at(const QString& label) { return field<Field>(*station, label)->error_text().toStdString(); }
  void give_reason(const QString& why) {
    settle();
    const auto* line = station->findChild<ReasonLine*>();
    ASSERT_TRUE(line->open());
    line->field()->line()->setFocus();
    type_and_enter(why);
    settle();
  }
};

TEST_F(TrayBench, FilledByTypingAlone) {
  click("Lay out a tray");
  ASSERT_EQ(focused(), "Stands there");
  EXPECT_EQ(tray().grid.size(), 12);
  type_and_enter("26-0001/2");
  EXPECT_EQ(focused(), "Stands there");
  type_and_enter("rock blank");
  press(Qt::Key_Right);
  type_and_enter("26-0001/1");
  EXPECT_THAT(positions(), ElementsAre(1, 2, 4));
  EXPECT_EQ(tray().at(1)->thing.charge, charges[1]);
  EXPECT_EQ(tray().at(2)->thing.control, "rock blank");
  EXPECT_EQ(tray().at(4)->thing.charge, charges[0]);
}

TEST_F(TrayBench, WhatCanNotBeStaysTypedWithItsReasonInPlace) {
  click("Lay out a tray");
  type_and_enter("26-0001/1");
  type_and_enter("26-0001/1");
  EXPECT_THAT(error_at("Stands there"), testing::HasSubstr("position 1"));
  EXPECT_EQ(field<LineField>(*station, "Stands there")->typed(), "26-0001/1");
  press(Qt::Key_Escape);
  enter_in(*station, "Stands there", "26-0009/1");
  EXPECT_THAT(error_at("Stands there"), testing::HasSubstr("26-0009/1"));
  enter_in(*station, "Stands there", "26-0001");
  EXPECT_THAT(error_at("Stands there"), testing::HasSubstr("several"));
  enter_in(*station, "Position", "13");
  EXPECT_THAT(error_at("Position"), testing::HasSubstr("1 to 12"));
  EXPECT_THAT(positions(), ElementsAre(1));
}

TEST_F(TrayBench, AMoveAndASwapAskForTheirReasonAndCanBeTakenBack) {
  click("Lay out a tray");
  click("Place 3 waiting");
  ASSERT_THAT(positions(), ElementsAre(1, 2, 3));
  enter_in(*station, "Position", "1");
  enter_in(*station, "Goes to position", "2");
  EXPECT_EQ(tray().at(1)->thing.charge, charges[0]) << "not before the reason";
  give_reason("drawn crosswise");
  EXPECT_EQ(tray().at(1)->thing.charge, charges[1]);
  enter_in(*station, "Position", "3");
  enter_in(*station, "Goes to position", "7");
  give_reason("cracked pot");
  EXPECT_THAT(positions(), ElementsAre(1, 2, 7));
  click("take back");
  give_reason("it was another");
  EXPECT_THAT(positions(), ElementsAre(1, 2, 3));
  EXPECT_EQ(trays::shifts_of(*connection, tray().id)->size(), 3u);
}

// The window leaves a page with Escape: what is typed, and a reason that is asked for, come first.
TEST_F(TrayBench, EscapeOfTheWindowWaitsForWhatIsTyped) {
  int left = 0;
  QShortcut leaves(QKeySequence(Qt::Key_Escape), station.get());
  QObject::connect(&leaves, &QShortcut::activated, station.get(), [&left] { ++left; });
  click("Lay out a tray");
  type("rock bl");
  press(Qt::Key_Escape);
  EXPECT_EQ(field<LineField>(*station, "Stands there")->typed(), "");
  press(Qt::Key_Escape);
  EXPECT_EQ(field<LineField>(*station, "Stands there")->typed(), "rock bl") << "brought back";
  press(Qt::Key_Escape);
  type_and_enter("26-0001/1");
  enter_in(*station, "Position", "1");
  click("Take it off");
  press(Qt::Key_Escape);
  EXPECT_FALSE(station->findChild<ReasonLine*>()->open());
  EXPECT_THAT(positions(), ElementsAre(1));
  EXPECT_EQ(left, 0);
}

TEST_F(TrayBench, CarriedOnToCupelsAndIntoTheirRun) {
  const FurnaceRunId run = *fire::start_run(book, {"second firing", "cupellation", person});
  click("Lay out a tray");
  click("Place 3 waiting");
  click("On to cupels");
  EXPECT_EQ(tray().kind, trays::Kind::cupel);
  EXPECT_THAT(positions(), ElementsAre(1, 2, 3));
  enter_in(*station, "Run", "second");
  EXPECT_EQ(tray().run, run);
  EXPECT_EQ(fire::charge(*connection, charges[2])->cupellation_run, run);
  click("On to the balance");
  EXPECT_EQ(tray().kind, trays::Kind::bead);
  EXPECT_EQ(tray().at(2)->thing.charge, charges[1]);
  click("Put away");
  EXPECT_EQ(trays::trays_in_use(*connection)->size(), 2u);
}

TEST_F(TrayBench, AGridAndItsArrows) {
  click("Lay out a tray");
  enter_in(*station, "Rows", "3");
  enter_in(*station, "Positions of a row", "4");
  EXPECT_EQ(tray().grid.rows, 3);
  auto* grid = station->findChild<TrayGrid*>();
  grid->setFocus();
  press(Qt::Key_Home);
  press(Qt::Key_Down);
  press(Qt::Key_Right);
  EXPECT_EQ(grid->in_hand(), 6);
  press(Qt::Key_Return);
  type_and_enter("rock blank");
  EXPECT_THAT(positions(), ElementsAre(6));
  enter_in(*station, "Rows", "1");
  EXPECT_THAT(error_at("Rows"), testing::HasSubstr("position 6"));
}

TEST_F(TrayBench, AScannedChargeGoesToThePositionInHand) {
  click("Lay out a tray");
  ASSERT_TRUE(station->show_record({history::Entity::charge, charges[2].value}));
  EXPECT_EQ(tray().at(1)->thing.charge, charges[2]);
  station->take_portion({});
  EXPECT_FALSE(station->show_record({history::Entity::charge, charges[0].value})) << "no tray in hand";
}

}  // namespace
}  // namespace prillbook::ui
