// SPDX-License-Identifier: GPL-3.0-or-later
// Keyboard and accessibility of the whole window, in every view of the demonstration.
#include "tests/program/sweep.h"

#include <gtest/gtest.h>

#include <QtCore/QStandardPaths>
#include <QtTest/QTest>
#include <QtWidgets/QApplication>

#include "app/batch/notebook_verbs.h"
#include "tests/support/notebook.h"
#include "ui/kit/theme.h"

namespace prillbook::program {
namespace {

class Sweep : public testing::Test {
 protected:
  testing_support::TempFolder folder;
  SteppingClock clock = testing_support::monday_morning();
  std::unique_ptr<Desk> desk;
  QStringList complaints;
  int views = 0;

  void SetUp() override {
    QStandardPaths::setTestModeEnabled(true);
    const std::string file = folder.file("demo.prillbook");
    ASSERT_TRUE(batch::notebook_demo(file).ok());
    desk = Desk::open(QString::fromStdString(file), store::Access::read_write, clock, {[] {}, [] {}}).value();
  }
  ui::MainWindow& window() { return desk->window(); }
  void show(int width, int height) {
    window().resize(width, height);
    window().show();
    window().activateWindow();
    ASSERT_TRUE(QTest::qWaitForWindowActive(&window(), 2000));
  }
  // The same complaint in many views is one.
  void note(const QString& view, const char* what, const QStringList& found) {
    for (const QString& complaint : found)
      if (complaints.filter(complaint).isEmpty())
        complaints << QStringLiteral("%1, %2: %3").arg(view, QLatin1String(what), complaint);
  }
  void expect_no_complaint() {
    EXPECT_GT(views, 15) << "the demonstration fills every station";
    EXPECT_TRUE(complaints.isEmpty()) << complaints.join('\n').toStdString();
  }
};

TEST_F(Sweep, TheKeysNamesAndWheelOfEveryView) {
  show(1280, 720);
  go_round(window(), [this](ui::MainWindow& shown, const QString& view) {
    ++views;
    note(view, "has no name", without_name(shown));
    note(view, "a key given twice", keys_given_twice(shown));
    note(view, "text too faint", too_faint(shown));
    note(view, "turned by the wheel", turned_by_wheel(shown));
    note(view, "Tab", not_reached_by_tab(shown));
  });
  expect_no_complaint();
}

// A screen of 1280×720 at 200 % leaves 640×360 to the window.
TEST_F(Sweep, InTheDarkAtTwiceTheSize) {
  ui::Theme theme(*qApp, ui::Shade::dark);
  show(640, 360);
  go_round(window(), [this](ui::MainWindow& shown, const QString& view) {
    ++views;
    note(view, "cut off", cut_off(shown));
    note(view, "text too faint", too_faint(shown));
    if (shown.width() > 640 || shown.height() > 360)
      note(view, "wider or higher than the screen", {QStringLiteral("%1×%2").arg(shown.width()).arg(shown.height())});
  });
  expect_no_complaint();
  desk.reset();
  theme.set_shade(ui::Shade::light);
}

}  // namespace
}  // namespace prillbook::program
