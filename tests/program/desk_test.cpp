// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/program/desk.h"

#include <gtest/gtest.h>
#include <unistd.h>

#include <QtCore/QStandardPaths>
#include <QtGui/QTextBlock>
#include <QtGui/QWindow>
#include <QtTest/QTest>
#include <QtWidgets/QLineEdit>
#include <fstream>

#include "app/batch/notebook_verbs.h"
#include "app/program/describe.h"
#include "app/program/guide_page.h"
#include "core/custody/custody.h"
#include "core/custody/hand_overs.h"
#include "core/custody/pieces.h"
#include "core/custody/places.h"
#include "core/history/fields.h"
#include "tests/support/records.h"
#include "ui/kit/field.h"
#include "ui/kit/messages.h"
#include "ui/printing/labels_page.h"
#include "ui/sheet/sample_sheet.h"
#include "ui/upkeep/history_page.h"
#include "ui/upkeep/journal_page.h"
#include "ui/window/find_line.h"

namespace prillbook::program {
namespace {

class DeskTest : public testing::Test {
 protected:
  testing_support::TempFolder folder;
  SteppingClock clock = testing_support::monday_morning();
  QString file = QString::fromStdString(folder.file("demo.prillbook"));

  void SetUp() override {
    QStandardPaths::setTestModeEnabled(true);
    ASSERT_TRUE(batch::notebook_demo(file.toStdString()).ok());
  }
  static void show(ui::MainWindow& window) {
    window.resize(1280, 720);
    window.show();
    activate(window);
    QTest::qWait(400);  // painted: a scan is measured in milliseconds
  }
  // Without a window manager a page that is made while the window is shown can take the activity with it when it goes.
  static void activate(ui::MainWindow& window) {
    for (int tries = 0; tries < 10 && !window.isActiveWindow(); ++tries) {
      window.activateWindow();
      (void)QTest::qWaitForWindowActive(&window, 300);
    }
    ASSERT_TRUE(window.isActiveWindow());
  }
  Result<std::unique_ptr<Desk>> open(store::Access access = store::Access::read_write) {
    return Desk::open(file, access, clock, {[] {}, [] {}});
  }
};

TEST_F(DeskTest, OpensTheDemonstrationAndEverySampleHasItsSheet) {
  auto desk = open();
  ASSERT_TRUE(desk.ok()) << desk.error().detail;
  (*desk)->window().resize(1280, 720);
  (*desk)->window().show();
  for (int sample = 1; sample <= 9; ++sample) EXPECT_TRUE((*desk)->window().open({history::Entity::sample, sample})) << sample;
  EXPECT_FALSE((*desk)->window().open({history::Entity::sample, 999}));
  (*desk)->window().grab();
}

TEST_F(DeskTest, AScanOpensWhatTheLabelStandsFor) {
  auto desk = open();
  ASSERT_TRUE(desk.ok());
  ui::MainWindow& window = (*desk)->window();
  show(window);
  auto* sheet = window.findChild<ui::SampleSheet*>();
  EXPECT_TRUE(sheet == nullptr || !sheet->isVisible());
  for (const char c : std::string("PB1:P:26-0001/1")) QTest::keyClick(window.windowHandle(), c);
  QTest::keyClick(window.windowHandle(), Qt::Key_Return);
  sheet = window.findChild<ui::SampleSheet*>();
  ASSERT_NE(sheet, nullptr);
  EXPECT_TRUE(sheet->isVisible());
  EXPECT_EQ(sheet->sample(), SampleId{1});
  EXPECT_TRUE(bool(sheet->in_hand()));
}

TEST_F(DeskTest, ACodeInTheFindLineIsFoundAndAStrangeOneIsSaid) {
  auto desk = open();
  ASSERT_TRUE(desk.ok());
  ui::MainWindow& window = (*desk)->window();
  show(window);
  auto* find = window.findChild<ui::FindLine*>();
  find->start();
  find->line()->setText("pb1:s:26-0002");
  emit find->line()->textEdited(find->line()->text());
  QTest::keyClick(find->line(), Qt::Key_Return);
  auto* sheet = window.findChild<ui::SampleSheet*>();
  ASSERT_TRUE(sheet && sheet->isVisible());
  EXPECT_EQ(sheet->sample(), SampleId{2});
  QTest::qWait(400);  // the sheet is painted
  for (const char c : std::string("PB1:S:99-0001")) QTest::keyClick(window.windowHandle(), c);
  QTest::keyClick(window.windowHandle(), Qt::Key_Return);
  QStringList said;
  for (const ui::MessageBar* bar : window.findChildren<ui::MessageBar*>()) said << bar->words();
  EXPECT_TRUE(said.join('|').contains("no 99-0001")) << said.join('|').toStdString();
}

TEST_F(DeskTest, LabelsLieOverTheSheetAndEscapeGoesBackToIt) {
  auto desk = open();
  ASSERT_TRUE(desk.ok());
  ui::MainWindow& window = (*desk)->window();
  show(window);
  ASSERT_TRUE(window.open({history::Entity::sample, 1}));
  auto* sheet = window.findChild<ui::SampleSheet*>();
  emit sheet->labels_requested({history::Entity::sample, 1});
  auto* page = window.findChild<ui::LabelsPage*>();
  ASSERT_TRUE(page && page->isVisible());
  EXPECT_FALSE(page->chosen().empty());
  activate(window);
  QTest::keyClick(window.windowHandle(), Qt::Key_Escape);
  EXPECT_TRUE(sheet->isVisible());
  activate(window);
  QTest::keyClick(window.windowHandle(), Qt::Key_Escape);
  EXPECT_FALSE(sheet->isVisible()) << "and from the sheet to the station";
  EXPECT_FALSE(page->isVisible());
}

TEST_F(DeskTest, ASecondWindowIsToldWhoHoldsTheNotebook) {
  auto first = open();
  ASSERT_TRUE(first.ok());
  const auto second = open();
  ASSERT_FALSE(second.ok());
  EXPECT_EQ(second.error().code, ErrorCode::locked);
  ASSERT_GE(second.error().arguments.size(), 4u);
  EXPECT_EQ(second.error().arguments[3], std::to_string(getpid()));
  const auto reading = open(store::Access::read_only);
  ASSERT_TRUE(reading.ok()) << "reading is always possible";
  EXPECT_TRUE((*reading)->window().windowTitle().startsWith("demo, to read only")) << "and it says so";
}

TEST_F(DeskTest, HistoryOfTheFieldInHandAndTheWholeJournalByAKey) {
  auto desk = open();
  ASSERT_TRUE(desk.ok());
  ui::MainWindow& window = (*desk)->window();
  show(window);
  ASSERT_TRUE(window.open({history::Entity::sample, 2}));
  activate(window);
  QTest::keyClick(window.windowHandle(), Qt::Key_H, Qt::ControlModifier);
  auto* history = window.findChild<ui::HistoryPage*>();
  ASSERT_TRUE(history && history->isVisible());
  EXPECT_GT(history->count(), 1);
  activate(window);
  QTest::keyClick(window.windowHandle(), Qt::Key_J, Qt::ControlModifier);
  auto* journal = window.findChild<ui::JournalPage*>();
  ASSERT_TRUE(journal && journal->isVisible());
  EXPECT_EQ(journal->count(), 100);
  ASSERT_TRUE(window.open({history::Entity::person, 1}));
  for (auto* field : window.findChildren<ui::Field*>())
    if (field->property("record").toString() == "person/1/initials") field->editor()->setFocus();
  activate(window);
  QTest::keyClick(window.windowHandle(), Qt::Key_H, Qt::ControlModifier);
  EXPECT_TRUE(history->isVisible());
  EXPECT_EQ(history->count(), 2) << "the person of the row where the cursor stands: made, and named";
}

TEST_F(DeskTest, OpensWhereOneLeftOff) {
  {
    auto desk = open();
    ASSERT_TRUE(desk.ok());
    show((*desk)->window());
    (*desk)->window().go_to(2);
  }
  auto desk = open();
  ASSERT_TRUE(desk.ok());
  show((*desk)->window());
  EXPECT_EQ((*desk)->window().place_in_hand(), 2u);
  (*desk)->window().go_to(0);
}

TEST_F(DeskTest, NotebookHeldOnAnotherMachineIsTakenOverWhenAsked) {
  std::ofstream(file.toStdString() + ".lock") << "hm\nanother-bench\n4711\n2026-05-04T08:00:00.000+02:00\n";
  const auto refused = open();
  ASSERT_FALSE(refused.ok());
  EXPECT_EQ(refused.error().field, "elsewhere");
  EXPECT_TRUE(Desk::open(file, store::Access::read_write, clock, {[] {}, [] {}}, store::TakeOver::from_any).ok());
}

TEST_F(DeskTest, TheLockGoesWithTheWindow) {
  ASSERT_TRUE(open().ok());
  EXPECT_TRUE(open().ok());
}

TEST(Describe, SaysWhatWasWrittenInTheWordsOfTheBench) {
  testing_support::LabWithSample<> lab;
  std::vector<QString> said;
  lab.book.listen([&](const history::Written& written) { said.push_back(describe(*lab.connection, written)); });
  ASSERT_TRUE(lab.cut("1 kg", "pan").ok());
  ASSERT_TRUE(portions::set_received_mass(lab.book, lab.sample, testing_support::figure("4,1 kg"), {}).ok());
  ASSERT_EQ(said.size(), 2u);
  EXPECT_TRUE(said[0].startsWith("26-0001/1")) << said[0].toStdString();
  EXPECT_TRUE(said[1].startsWith("26-0001: mass received 4,1")) << said[1].toStdString();
}

TEST(Describe, NamesWhatBelongsToASampleOrAConsignment) {
  testing_support::LabWithSample<> lab;
  const PersonId other = *lab::add_person(lab.book, "TB");
  std::vector<QString> said;
  lab.book.listen([&](const history::Written& written) { said.push_back(describe(*lab.connection, written)); });
  custody::NewHandOver given;
  given.from = "HM";
  given.to = "TB";
  ASSERT_TRUE(custody::hand_over(lab.book, std::vector{lab.sample}, given).ok());
  const PieceId piece = *custody::add_piece(lab.book, {lab.consignment, {}, {}, {}, {}, {}});
  ASSERT_TRUE(readings::enter(lab.book, history::fields::piece::remarks, piece.value, std::string("cut open")).ok());
  ASSERT_TRUE(custody::add_place(lab.book, "shelf 2").ok());
  ASSERT_TRUE(readings::enter(lab.book, history::fields::consignment::received_by, lab.consignment.value, other.value).ok());
  ASSERT_EQ(said.size(), 5u);
  EXPECT_TRUE(said[0].startsWith("26-0001: ")) << said[0].toStdString();
  EXPECT_EQ(said[2], "26-C01 piece 1: remarks cut open");
  EXPECT_TRUE(said[3].startsWith("shelf 2: ")) << said[3].toStdString();
  EXPECT_EQ(said[4], "26-C01: received by TB");
}

TEST(Guide, EveryPageThatTheWindowAsksForIsThere) {
  GuidePage page;
  for (const char* name :
       {"setup",          "receiving",        "preparation", "sample-sheet",     "pan",           "furnace",
        "weigh-room",     "compare",          "findings",    "summary",          "quality",       "labels",
        "photographs",    "bench-sheets",     "sieves",      "safety/receiving", "safety/sieves", "safety/fire",
        "safety/mercury", "safety/weigh-room"}) {
    page.open_at(name);
    QString heading = page.textCursor().block().text().toLower();
    heading.replace(' ', '-');
    EXPECT_EQ(heading, QString(name).section('/', -1)) << name;
  }
  page.open_at("receiving");
  EXPECT_FALSE(page.toMarkdown().contains("![")) << "a picture has no place in the window";
}

}  // namespace
}  // namespace prillbook::program
