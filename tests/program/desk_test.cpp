// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/program/desk.h"

#include <gtest/gtest.h>
#include <unistd.h>

#include <QtCore/QStandardPaths>
#include <QtGui/QTextBlock>

#include "app/batch/notebook_verbs.h"
#include "app/program/describe.h"
#include "app/program/guide_page.h"
#include "core/custody/custody.h"
#include "tests/support/records.h"

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

TEST_F(DeskTest, ASecondWindowIsToldWhoHoldsTheNotebook) {
  auto first = open();
  ASSERT_TRUE(first.ok());
  const auto second = open();
  ASSERT_FALSE(second.ok());
  EXPECT_EQ(second.error().code, ErrorCode::locked);
  ASSERT_GE(second.error().arguments.size(), 4u);
  EXPECT_EQ(second.error().arguments[3], std::to_string(getpid()));
  EXPECT_TRUE(open(store::Access::read_only).ok()) << "reading is always possible";
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

TEST(Guide, EveryPageThatTheWindowAsksForIsThere) {
  GuidePage page;
  for (const char* name : {"setup", "receiving", "sample-sheet", "sieves", "weigh-room", "compare", "summary", "safety/receiving",
                           "safety/sieves", "safety/fire", "safety/mercury", "safety/weigh-room"}) {
    page.open_at(name);
    QString heading = page.textCursor().block().text().toLower();
    heading.replace(' ', '-');
    EXPECT_EQ(heading, QString(name).section('/', -1)) << name;
  }
}

}  // namespace
}  // namespace prillbook::program
