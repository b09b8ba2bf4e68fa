// SPDX-License-Identifier: GPL-3.0-or-later
// A tray of twenty-four walked position by position, by keyboard alone and by the print key of a balance on a
// pseudo-terminal; and what the weigh room asks and says on the way.
#include <gmock/gmock.h>

#include <QtTest/QTest>
#include <QtWidgets/QApplication>
#include <QtWidgets/QLabel>
#include <QtWidgets/QLineEdit>
#include <memory>

#include "core/history/fields.h"
#include "core/trays/trays.h"
#include "core/weighing/check_weights.h"
#include "tests/support/desk.h"
#include "tests/support/keys.h"
#include "tests/support/pseudo_terminal.h"
#include "ui/balance_port/balance_port.h"
#include "ui/kit/reason_line.h"
#include "ui/weigh_room/mass_field.h"
#include "ui/weigh_room/recent_readings.h"
#include "ui/weigh_room/tray_row.h"
#include "ui/weigh_room/weigh_room.h"

namespace prillbook::ui {
namespace {

using testing::HasSubstr;
using testing_support::Desk;
using testing_support::figure;
using testing_support::press;
using testing_support::PseudoTerminal;
using testing_support::write;

constexpr int beads_of_a_tray = 24, walk_patience_ms = 5000;

// Twenty-four charges on a grid of three rows, put there from the last to the first: the tray's order is not that of the
// list.
struct TrayOnTheBench : testing::Test, Desk {
  TrayId tray = *trays::lay_out(book, {"beads of the day", trays::Kind::bead, {3, 9}});
  std::vector<fire::StartedCharge> charges;  // by position, from 1 at the front
  std::unique_ptr<WeighRoom> room;
  MassField* field = nullptr;

  TrayOnTheBench() {
    for (int i = 0; i < beads_of_a_tray; ++i) {
      another("adit " + std::to_string(i));
      charges.insert(charges.begin(), fire("30 g"));
    }
    for (int i = 0; i < beads_of_a_tray; ++i)
      EXPECT_TRUE(trays::place(book, tray, i + 1, {charges[std::size_t(i)].charge, {}, {}}).ok());
    EXPECT_TRUE(trays::place(book, tray, 26, {{}, {}, "blank cupel"}).ok());
  }
  void open() {
    room = std::make_unique<WeighRoom>(session);
    field = room->findChild<MassField*>();
    QObject::connect(&notifier, &Notifier::written, room.get(), &WeighRoom::notebook_changed);
    room->resize(1180, 640);
    room->show();
    room->enter();
    for (PickField* pick : room->findChildren<PickField*>()) {
      if (pick->label() != QStringLiteral("Tray")) continue;
      write(pick->line(), "beads");
      press(pick->line(), Qt::Key_Return);
    }
    QApplication::processEvents();
  }
  BeadId bead(int position) { return charges[std::size_t(position - 1)].bead; }
  std::vector<weighing::Weighing> weighed(int position) { return weighing::bead(*connection, bead(position))->weighings; }
  void enter(const QString& text) {
    write(field->line(), text);
    press(field->line(), Qt::Key_Return);
  }
  std::string label_with(const QString& part) {
    for (const QLabel* label : room->findChildren<QLabel*>())
      if (label->isVisibleTo(room.get()) && label->text().contains(part)) return label->text().toStdString();
    return "";
  }
};

TEST_F(TrayOnTheBench, TwentyFourByKeyboardAlone) {
  open();
  ASSERT_EQ(room->in_hand(), bead(1));
  EXPECT_EQ(room->focusWidget(), field->line());
  for (int position = 1; position <= beads_of_a_tray; ++position) {
    ASSERT_EQ(room->in_hand(), bead(position));
    if (position == 7) {  // lost: the rest does not shift
      press(field->line(), Qt::Key_S, Qt::NoModifier, "s");
      auto* reason = room->findChild<ReasonLine*>();
      write(reason->field()->line(), "sprang off");
      press(reason->field()->line(), Qt::Key_Return);
      QApplication::processEvents();
      ASSERT_EQ(room->focusWidget(), field->line());
      continue;
    }
    if (position == 12) {  // looked back at, and on again
      press(field->line(), Qt::Key_Backspace);
      EXPECT_EQ(room->in_hand(), bead(11));
      press(field->line(), Qt::Key_Down);
      ASSERT_EQ(room->in_hand(), bead(12));
    }
    enter(QString::number(1 + position) + QStringLiteral(".5"));
  }
  EXPECT_FALSE(room->in_hand());
  for (int position = 1; position <= beads_of_a_tray; ++position) {
    const auto list = weighed(position);
    if (position == 7) {
      EXPECT_TRUE(list.empty());
      EXPECT_EQ(fire::charge(*connection, charges[6].charge)->spoiled, "sprang off");
      continue;
    }
    ASSERT_EQ(list.size(), 1u) << position;
    EXPECT_EQ(list[0].mass.typed, std::to_string(1 + position) + ".5");
    EXPECT_FALSE(list[0].raw);
  }
  EXPECT_THAT(label_with("done"), HasSubstr("tray is done"));
}

TEST_F(TrayOnTheBench, TwentyFourByThePrintKeyOfTheBalance) {
  const PseudoTerminal wire;
  PortSettings settings;
  settings.port = QString::fromStdString(wire.port());
  settings.layout = QStringLiteral("label, figure and unit");
  keep_port_settings(settings);
  open();
  EXPECT_THAT(label_with("listening"), HasSubstr(wire.port()));
  for (int position = 1; position <= beads_of_a_tray; ++position) {
    ASSERT_EQ(room->in_hand(), bead(position));
    const std::string figure = std::to_string(position) + ".014 mg";
    if (position == 3) ASSERT_TRUE(wire.send("N  +  9.999 mg ?\r\n")) << "still moving: not taken";
    ASSERT_TRUE(wire.send("N  +  " + figure.substr(0, 4)));
    QTest::qWait(2);
    ASSERT_TRUE(wire.send(figure.substr(4) + "\r\n"));
    ASSERT_TRUE(QTest::qWaitFor([&] { return room->in_hand() != bead(position); }, walk_patience_ms)) << position;
  }
  EXPECT_FALSE(room->in_hand());
  for (int position = 1; position <= beads_of_a_tray; ++position) {
    const auto list = weighed(position);
    ASSERT_EQ(list.size(), 1u) << position;
    EXPECT_NEAR(list[0].mass.value, (position + 0.014) / 1000, 1e-12);
    EXPECT_EQ(list[0].raw, "N  +  " + std::to_string(position) + ".014 mg");
  }
}

TEST_F(TrayOnTheBench, WhatIsTypedComesBeforeWhatTheBalanceSends) {
  const PseudoTerminal wire;
  PortSettings settings;
  settings.port = QString::fromStdString(wire.port());
  keep_port_settings(settings);
  open();
  write(field->line(), "5");
  ASSERT_TRUE(wire.send("6.5 mg\r\n"));
  QTest::qWait(100);
  EXPECT_EQ(field->typed(), "5");
  EXPECT_TRUE(weighed(1).empty());
  press(field->line(), Qt::Key_Escape);
  ASSERT_TRUE(wire.send("-0.003 mg\r\n22.O mg\r\nover\r\n"));
  QTest::qWait(100);
  EXPECT_TRUE(weighed(1).empty());
  EXPECT_TRUE(field->typed().isEmpty());
  EXPECT_EQ(room->in_hand(), bead(1));
  room->hide();
  ASSERT_TRUE(wire.send("6.5 mg\r\n"));
  QTest::qWait(100);
  EXPECT_TRUE(weighed(1).empty()) << "nobody sees which bead it would be";
}

TEST_F(TrayOnTheBench, AFigureOfTheBalanceThatWasChangedIsTyped) {
  const PseudoTerminal wire;
  PortSettings settings;
  settings.port = QString::fromStdString(wire.port());
  keep_port_settings(settings);
  open();
  ASSERT_TRUE(wire.send("0.012 mg\r\n"));  // twelve steps: asked about
  ASSERT_TRUE(QTest::qWaitFor([&] { return !field->question_text().isEmpty(); }, walk_patience_ms));
  press(field->line(), Qt::Key_Return);
  ASSERT_EQ(weighed(1).size(), 1u);
  EXPECT_EQ(weighed(1)[0].raw, "0.012 mg") << "the answer does not change what was sent";
  EXPECT_THAT(weighed(1)[0].mass.answer.value_or(""), HasSubstr("near the step"));
  ASSERT_TRUE(wire.send("0.013 mg\r\n"));
  ASSERT_TRUE(QTest::qWaitFor([&] { return !field->question_text().isEmpty(); }, walk_patience_ms));
  press(field->line(), Qt::Key_Escape);
  enter("1.3 mg");
  ASSERT_EQ(weighed(2).size(), 1u);
  EXPECT_FALSE(weighed(2)[0].raw);
}

TEST_F(TrayOnTheBench, ThePositionsAreSeenOnTheTray) {
  open();
  const auto& places = room->findChild<TrayRow*>()->places();
  ASSERT_EQ(places.size(), 25u);
  EXPECT_EQ(places[0].position, 1);
  EXPECT_EQ(places[24].position, 26);
  EXPECT_EQ(places[24].number, "blank cupel");
  EXPECT_FALSE(places[24].bead);
}

TEST_F(TrayOnTheBench, ABeadOutOfKeepingAsksAboutASwap) {
  const auto expected = [&](int position, const char* word) {
    const auto sample = weighing::origin(*connection, bead(position))->sample;
    ASSERT_TRUE(readings::enter(book, history::fields::sample::expected, sample.value, std::string(word)).ok());
  };
  expected(1, "barren");
  expected(2, "specimen");
  open();
  enter("9.0 mg");  // 300 g/t
  EXPECT_THAT(field->question_text().toStdString(), HasSubstr("changed places"));
  EXPECT_TRUE(weighed(1).empty());
  press(field->line(), Qt::Key_Return);
  ASSERT_EQ(weighed(1).size(), 1u);
  EXPECT_THAT(weighed(1)[0].mass.answer.value_or(""), HasSubstr("changed places"));
  enter("9.0 mg");
  EXPECT_EQ(weighed(2).size(), 1u) << "in keeping: nothing is asked";
}

TEST_F(TrayOnTheBench, RepeatsShowMeanSpreadAndWhatStandsOut) {
  open();
  for (const char* mass : {"2.001", "2.002", "2.000", "2.001", "2.400"}) {
    write(field->line(), mass);
    press(field->line(), Qt::Key_Plus, Qt::NoModifier, "+");
  }
  press(field->line(), Qt::Key_Return);  // the last one was asked about
  const std::string said = label_with("Mean");
  EXPECT_THAT(said, HasSubstr("2.08"));
  EXPECT_THAT(said, HasSubstr("stands out"));
  EXPECT_EQ(weighing::bead(*connection, bead(1))->valid(weighing::of_bead).size(), 5u) << "nothing is dropped";
}

TEST_F(TrayOnTheBench, TheWeighingKeepsTheTrayAndItsPosition) {
  open();
  press(field->line(), Qt::Key_Down);
  enter("2.5");
  ASSERT_EQ(weighed(2).size(), 1u);
  EXPECT_EQ(weighed(2)[0].tray, tray);
  EXPECT_EQ(weighed(2)[0].position, 2);
}

TEST_F(TrayOnTheBench, ACupIsWeighedOnceAndComesOffEveryReading) {
  open();
  press(field->line(), Qt::Key_T, Qt::NoModifier, "t");
  EXPECT_EQ(field->label(), "The empty cup");
  enter("490.301");
  EXPECT_EQ(field->label(), "Cup and bead");
  EXPECT_EQ(room->in_hand(), bead(1)) << "no bead was weighed yet";
  EXPECT_TRUE(weighed(1).empty());
  write(field->line(), "493.301");
  EXPECT_THAT(label_with("g/t"), HasSubstr("100.0")) << "3 mg of 30 g";
  press(field->line(), Qt::Key_Return);
  ASSERT_EQ(weighed(1).size(), 1u);
  EXPECT_EQ(weighed(1)[0].mass.typed, "3.000 mg");
  EXPECT_EQ(weighed(1)[0].gross->typed, "493.301");
  EXPECT_EQ(weighed(1)[0].tare->typed, "490.301");
  enter("490.2");
  EXPECT_TRUE(weighed(2).empty());
  EXPECT_THAT(field->error_text().toStdString(), HasSubstr("empty cup")) << "lighter than its cup";
  press(field->line(), Qt::Key_Escape);
  press(field->line(), Qt::Key_T, Qt::NoModifier, "t");
  EXPECT_EQ(field->label(), "Bead");
  enter("3.5");
  EXPECT_FALSE(weighed(2)[0].gross);
}

struct AllTheTime : TrayOnTheBench {
  PseudoTerminal wire;

  void listen(const char* sends) {
    PortSettings settings;
    settings.port = QString::fromStdString(wire.port());
    settings.sends = QString::fromLatin1(sends);
    keep_port_settings(settings);
    open();
  }
  void send(const std::string& milligrams, int times) {
    for (int i = 0; i < times; ++i) ASSERT_TRUE(wire.send(milligrams + " mg\r\n"));
    const std::string seen = "on the balance: " + milligrams;
    ASSERT_TRUE(QTest::qWaitFor([&] { return label_with("on the balance").starts_with(seen); }, walk_patience_ms)) << milligrams;
  }
};

TEST_F(AllTheTime, EnterTakesWhatStandsStillAndNeverTwice) {
  listen("key");
  send("0.000", 5);
  press(field->line(), Qt::Key_Return);
  EXPECT_TRUE(weighed(1).empty()) << "nothing lies there";
  send("2.514", 2);
  press(field->line(), Qt::Key_Return);
  EXPECT_TRUE(weighed(1).empty()) << "not a run yet";
  send("2.514", 6);
  ASSERT_TRUE(QTest::qWaitFor([&] { return !label_with("Enter takes it").empty(); }, walk_patience_ms));
  EXPECT_TRUE(weighed(1).empty()) << "nothing enters by itself";
  press(field->line(), Qt::Key_Return);
  ASSERT_EQ(weighed(1).size(), 1u);
  EXPECT_EQ(weighed(1)[0].mass.typed, "2.514 mg");
  EXPECT_EQ(weighed(1)[0].raw, "2.514 mg");
  EXPECT_EQ(room->in_hand(), bead(2));
  send("2.515", 9);
  ASSERT_TRUE(QTest::qWaitFor([&] { return !label_with("lift the bead off").empty(); }, walk_patience_ms));
  press(field->line(), Qt::Key_Return);
  EXPECT_TRUE(weighed(2).empty()) << "it lies there still";
  enter("9.5");
  EXPECT_EQ(weighed(2).size(), 1u) << "a figure typed goes before";
}

TEST_F(AllTheTime, WhatIsSteadyIsTakenOnceByItself) {
  listen("itself");
  send("2.514", 9);
  EXPECT_TRUE(weighed(1).empty()) << "the balance was not seen empty yet";
  for (int position = 1; position <= 3; ++position) {
    send("0.000", 2);
    const std::string mass = std::to_string(position + 1) + ".250";
    send(mass, 12);
    ASSERT_TRUE(QTest::qWaitFor([&] { return !weighed(position).empty(); }, walk_patience_ms)) << position;
    EXPECT_EQ(weighed(position)[0].mass.typed, mass + " mg");
    ASSERT_EQ(room->in_hand(), bead(position + 1));
  }
  EXPECT_EQ(weighed(1).size() + weighed(2).size() + weighed(3).size(), 3u);
  EXPECT_TRUE(weighed(4).empty());
}

TEST_F(TrayOnTheBench, TheLastReadingsStayInSightOnASmallScreen) {
  open();
  for (int i = 0; i < 6; ++i) enter(QString::number(2 + i) + QStringLiteral(".5"));
  room->resize(1110, 640);  // the station of a window of 1280 by 720
  QApplication::processEvents();
  auto* recent = room->findChild<RecentReadings*>();
  EXPECT_FALSE(recent->visibleRegion().isEmpty());
  const QPoint foot = recent->mapTo(room.get(), QPoint(0, recent->height()));
  EXPECT_LE(foot.y(), 640) << "below the fold";
  EXPECT_GE(recent->count(), 5);
}

TEST_F(TrayOnTheBench, LargeTypeShowsFigureAndGradeAlone) {
  open();
  press(field->line(), Qt::Key_L, Qt::NoModifier, "l");
  EXPECT_FALSE(room->findChild<TrayRow*>()->isVisible());
  EXPECT_GE(QFontInfo(field->line()->font()).pixelSize(), 120);
  EXPECT_EQ(room->focusWidget(), field->line());
  enter("3.5");
  EXPECT_EQ(room->in_hand(), bead(2));
  press(field->line(), Qt::Key_L, Qt::NoModifier, "l");
  EXPECT_TRUE(room->findChild<TrayRow*>()->isVisible());
  EXPECT_LT(QFontInfo(field->line()->font()).pixelSize(), 100);
}

}  // namespace
}  // namespace prillbook::ui
