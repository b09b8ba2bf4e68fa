// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/upkeep/copies_page.h"

#include <QtCore/QSettings>
#include <QtCore/QTemporaryDir>
#include <QtTest/QTest>
#include <filesystem>

#include "core/store/backup.h"
#include "core/upkeep/check.h"
#include "core/upkeep/sealed.h"
#include "tests/support/records.h"
#include "tests/support/scripted_prompter.h"
#include "ui/kit/fields.h"
#include "ui/kit/press_button.h"
#include "ui/kit/waiting_list.h"
#include "ui/upkeep/copy_keeper.h"
#include "ui/upkeep/copy_words.h"

namespace prillbook::ui {
namespace {

namespace fs = std::filesystem;

struct UpkeepDesk : testing_support::LabWithSample<testing_support::FileNotebook> {
  QTemporaryDir state;
  Notifier notifier{book};
  testing_support::ScriptedPrompter prompter;
  Drafts drafts{"desk", state.path()};
  Session session{*connection, book, notifier, prompter, drafts, {}};
  std::unique_ptr<CopyKeeper> keeper;

  UpkeepDesk() {
    QSettings::setPath(QSettings::NativeFormat, QSettings::UserScope, state.path());
    QSettings::setPath(QSettings::IniFormat, QSettings::UserScope, state.path());
    keeper = std::make_unique<CopyKeeper>(QString::fromStdString(path), clock);
  }
  void take_copy() {
    keeper->take_now();
    ASSERT_TRUE(QTest::qWaitFor([&] { return !keeper->taking(); }, 30'000));
  }
};

bool looked(CopiesPage& page) {
  return QTest::qWaitFor([&] { return !page.looking(); }, 30'000);
}

PressButton* button(QWidget& page, const QString& begins) {
  for (auto* one : page.findChildren<PressButton*>())
    if (one->text().startsWith(begins)) return one;
  return nullptr;
}

TEST(CopyKeeperTest, TakesACopyBesideAndSaysNothingWhereAllIsWell) {
  UpkeepDesk desk;
  QStringList said;
  QObject::connect(desk.keeper.get(), &CopyKeeper::said, [&](const QString& words) { said << words; });
  desk.take_copy();
  ASSERT_TRUE(desk.keeper->last() && desk.keeper->last()->ok());
  EXPECT_TRUE((*desk.keeper->last())->path);
  EXPECT_TRUE(said.isEmpty()) << said.join('|').toStdString();
}

TEST(CopyKeeperTest, AMissingStickIsSaidOnce) {
  UpkeepDesk desk;
  desk.keeper->set_places({"", desk.folder.file("stick")});
  QStringList said;
  QObject::connect(desk.keeper.get(), &CopyKeeper::said, [&](const QString& words) { said << words; });
  desk.take_copy();
  desk.take_copy();
  ASSERT_EQ(said.size(), 1);
  EXPECT_TRUE(said[0].contains("second copy is missing")) << said[0].toStdString();
  EXPECT_EQ(kept_copy_places(QString::fromStdString(desk.path)).second, desk.folder.file("stick"))
      << "and kept for the next time";
}

TEST(CopyKeeperTest, ClosingStopsACopyInTheMaking) {
  UpkeepDesk desk;
  desk.keeper->take_now();
  desk.keeper.reset();
  for (const auto& entry : fs::directory_iterator(upkeep::usual_copy_place(desk.path)))
    EXPECT_NE(entry.path().extension(), ".part");
}

TEST(CopiesPageTest, TellsWhatWouldBeLostAndAsksBeforeRestoring) {
  UpkeepDesk desk;
  desk.take_copy();
  desk.log_sample("Quartz vein, hanging wall of the long north drive", "3,2 kg");
  CopiesPage page(desk.session, *desk.keeper);
  ASSERT_EQ(page.copies().size(), 1u);
  ASSERT_TRUE(looked(page));
  EXPECT_TRUE(page.difference_words().contains("One entry made since then is not in it"))
      << page.difference_words().toStdString();
  EXPECT_TRUE(page.difference_words().contains("1 × sample"));
  std::vector<QString> wanted;
  QObject::connect(&page, &CopiesPage::restore_wanted, [&](const QString& copy) { wanted.push_back(copy); });
  button(page, "Put it")->click();
  ASSERT_EQ(desk.prompter.asked.size(), 1u);
  EXPECT_TRUE(desk.prompter.asked[0].more.contains("lab.replaced-")) << "where the notebook of now goes is said first";
  EXPECT_TRUE(wanted.empty()) << "Escape changes nothing";
  desk.prompter.answers = {0};
  button(page, "Put it")->click();
  ASSERT_EQ(wanted.size(), 1u);
  EXPECT_EQ(wanted[0].toStdString(), page.copies()[0].path);
}

TEST(CopiesPageTest, SealedCopyOpensWithItsPassphraseOnly) {
  UpkeepDesk desk;
  const std::string sealed = desk.folder.file("for the archive");
  ASSERT_TRUE(upkeep::seal(desk.path, sealed, "correct horse").ok());
  CopiesPage page(desk.session, *desk.keeper);
  ASSERT_EQ(page.copies().size(), 1u);
  EXPECT_EQ(page.copies()[0].kind, upkeep::CopyKind::sealed);
  auto* passphrase = [&]() -> TextField* {
    for (auto* field : page.findChildren<TextField*>())
      if (field->label().startsWith("Passphrase")) return field;
    return nullptr;
  }();
  passphrase->type("wrong horse");
  passphrase->commit();
  ASSERT_TRUE(looked(page));
  EXPECT_TRUE(page.difference_words().isEmpty());
  passphrase->type("correct horse");
  passphrase->commit();
  ASSERT_TRUE(looked(page));
  EXPECT_TRUE(page.difference_words().contains("what the notebook says today")) << page.difference_words().toStdString();
  EXPECT_TRUE(fs::exists(desk.path + ".opened"));
}

TEST(CopiesPageTest, AFolderThatIsNotThereIsRefusedInPlace) {
  UpkeepDesk desk;
  CopiesPage page(desk.session, *desk.keeper);
  auto* first = page.findChildren<TextField*>().front();
  first->type(QString::fromStdString(desk.folder.file("gone")));
  first->commit();
  EXPECT_TRUE(first->refused());
  EXPECT_EQ(desk.keeper->places().first, "");
}

TEST(CopyWords, SizesAndKinds) {
  EXPECT_EQ(size_words(1'234'567), "1.2 MB");
  EXPECT_EQ(taken_words({"", upkeep::CopyKind::taken, upkeep::parse_copy_time("2026-05-04-093015")}), "4 May 2026, 09:30");
}

}  // namespace
}  // namespace prillbook::ui
