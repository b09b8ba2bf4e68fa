// SPDX-License-Identifier: GPL-3.0-or-later
// An empty notebook to the first bead, by the keyboard alone, as the first-start path leads.
#include <gtest/gtest.h>

#include <QtCore/QStandardPaths>

#include "app/batch/notebook_verbs.h"
#include "app/program/desk.h"
#include "core/results/sample_record.h"
#include "core/units/units.h"
#include "tests/support/window_hand.h"

namespace prillbook::program {
namespace {

using namespace testing_support;

// Strokes of the keyboard and places where a person has to think what comes next.
class Strokes : public QObject {
 public:
  Strokes() { qApp->installEventFilter(this); }
  bool eventFilter(QObject* watched, QEvent* event) override {
    if (watched == QApplication::focusWidget() && event->type() == QEvent::KeyPress) {
      ++keys;
      const int key = static_cast<QKeyEvent*>(event)->key();
      thoughts += key == Qt::Key_Return || key == Qt::Key_Tab;
    }
    return false;
  }
  // Keystroke-level model of Card, Moran and Newell (1980): 0.28 s a stroke of an average typist, 1.35 s to think. From memory.
  double seconds() const { return 0.28 * keys + 1.35 * thoughts; }

  int keys = 0, thoughts = 0;
};

void tab_to(const QString& label) {
  for (int presses = 0; focused() != label && presses < 40; ++presses) press(Qt::Key_Tab);
  ASSERT_EQ(focused().toStdString(), label.toStdString());
}

TEST(FirstStart, LeadsAnEmptyLabToItsFirstBeadInUnderFiveMinutes) {
  QStandardPaths::setTestModeEnabled(true);
  const TempFolder folder;
  const std::string file = folder.file("lab.prillbook");
  ASSERT_TRUE(batch::notebook_new(file).ok());
  SteppingClock clock = monday_morning();
  const auto desk = Desk::open(QString::fromStdString(file), store::Access::read_write, clock, {[] {}, [] {}}).value();
  ui::MainWindow& window = desk->window();
  show(window, 1280, 720);
  QTest::qWait(300);  // the first page comes after the first paint
  Strokes strokes;

  tab_to("Name of the lab");
  type_and_enter("Bench by the ford");
  type_and_enter("HM");
  tab_to("Balance");
  type_and_enter("bead balance");
  type_and_enter("0.001");
  tab_to("Client");
  type_and_enter("Larch Adit Syndicate");
  tab_to("Log the first consignment");
  press(Qt::Key_Return);
  ASSERT_EQ(focused(), "Client");
  type_and_enter("larch");
  tab_to("Client's mark");
  type_and_enter("Larch adit N");
  tab_to("Mass received");
  type_and_enter("4,1");
  press(Qt::Key_F, Qt::ControlModifier);
  type_and_enter("26-0001");
  ASSERT_EQ(focused(), "Mass");
  type_and_enter("500");
  ASSERT_EQ(focused(), "Pan it");
  press(Qt::Key_Return);
  ASSERT_EQ(focused(), "Bead");
  type_and_enter("6,21");

  const auto connection = store::Connection::open(file, store::Access::read_only).value();
  const auto record = results::load_sample_record(*connection, SampleId{1});
  ASSERT_TRUE(record.ok());
  ASSERT_EQ(record->pan_tests.size(), 1u);
  ASSERT_EQ(record->pan_tests[0].bead.weighings.size(), 1u);
  EXPECT_DOUBLE_EQ(record->pan_tests[0].bead.weighings[0].mass.mass().in(unit::milligram), 6.21);
  RecordProperty("keys", strokes.keys);
  EXPECT_GT(strokes.keys, 100);
  EXPECT_LT(strokes.seconds(), 5 * 60) << strokes.keys << " strokes, " << strokes.thoughts << " of them Enter or Tab";
  std::printf("  %d strokes, %d of them Enter or Tab: %.0f s\n", strokes.keys, strokes.thoughts, strokes.seconds());
}

}  // namespace
}  // namespace prillbook::program
