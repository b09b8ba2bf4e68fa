// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/kit/drafts.h"

#include <QtCore/QDir>
#include <QtCore/QElapsedTimer>
#include <QtCore/QFile>
#include <QtCore/QTemporaryDir>
#include <QtTest/QTest>
#include <QtWidgets/QLineEdit>

#include "tests/support/keys.h"
#include "ui/kit/fields.h"

namespace prillbook::ui {
namespace {

using testing_support::press;

const QString key = "sample/12/mark";

TEST(DraftsOnDisk, OutliveTheWindowAndBelongToOneNotebook) {
  QTemporaryDir folder;
  { Drafts("/lab/one", folder.path()).keep(key, "half"); }
  EXPECT_EQ(Drafts("/lab/one", folder.path()).draft(key), QString("half"));
  EXPECT_EQ(Drafts("/lab/two", folder.path()).draft(key), std::nullopt);
}

TEST(DraftsOnDisk, LeaveNoFileBehindWhenAllAreWritten) {
  QTemporaryDir folder;
  Drafts drafts("/lab/one", folder.path());
  drafts.keep(key, "half");
  EXPECT_TRUE(drafts.write_now());
  EXPECT_EQ(QDir(folder.path()).entryList(QDir::Files).size(), 1);
  drafts.forget(key);
  EXPECT_TRUE(drafts.write_now());
  EXPECT_TRUE(QDir(folder.path()).isEmpty());
}

// Read as after a kill: by another, while the first is still there.
TEST(DraftsOnDisk, AreKeptWhileSomebodyTypesOnAndOn) {
  QTemporaryDir folder;
  Drafts drafts("/lab/one", folder.path());
  const auto kept = [&] { return Drafts("/lab/one", folder.path()).draft(key); };
  QElapsedTimer since;
  since.start();
  for (int i = 0; !kept() && since.elapsed() < 10'000; ++i) {
    drafts.keep(key, QString::number(i));
    QTest::qWait(50);
  }
  EXPECT_TRUE(kept().has_value());
}

TEST(DraftsOnDisk, GoAtOnceWithWhatIsWritten) {
  QTemporaryDir folder;
  Drafts drafts("/lab/one", folder.path());
  drafts.keep(key, "half");
  drafts.keep("sample/13/mark", "other");
  ASSERT_TRUE(drafts.write_now());
  drafts.forget(key);
  EXPECT_EQ(Drafts("/lab/one", folder.path()).draft(key), std::nullopt);
  EXPECT_EQ(Drafts("/lab/one", folder.path()).draft("sample/13/mark"), QString("other"));
}

TEST(DraftsOnDisk, BrokenFileCountsAsNone) {
  QTemporaryDir folder;
  {
    Drafts drafts("/lab/one", folder.path());
    drafts.keep(key, "half");
  }
  QFile file(QDir(folder.path()).filePath(QDir(folder.path()).entryList(QDir::Files).first()));
  for (const char* broken : {"", "{", "[1]", "{\"drafts\": 3}", "{\"drafts\": {\"a\": 1}}", "\xFF\xFE"}) {
    ASSERT_TRUE(file.open(QIODevice::WriteOnly | QIODevice::Truncate));
    file.write(broken);
    file.close();
    EXPECT_EQ(Drafts("/lab/one", folder.path()).count(), 0) << broken;
  }
}

TEST(DraftsOnDisk, FolderThatCannotBeMadeIsTold) {
  QTemporaryDir folder;
  QFile blocker(folder.filePath("taken"));
  ASSERT_TRUE(blocker.open(QIODevice::WriteOnly));
  Drafts drafts("/lab/one", folder.filePath("taken/below"));
  drafts.keep(key, "half");
  EXPECT_FALSE(drafts.write_now());
}

struct FieldWithDrafts : testing::Test {
  QTemporaryDir folder;
  Drafts drafts{"/lab/one", folder.path()};
  TextField field{"Mark"};
  bool refuse = false;
  FieldWithDrafts() {
    field.on_commit([this](const auto&) -> Result<void> {
      return refuse ? Result<void>(Error{ErrorCode::locked, "", "", {}}) : Result<void>();
    });
    field.set_value("Larch");
  }
};

TEST_F(FieldWithDrafts, KeepsWhileTypedAndForgetsOnceWritten) {
  field.keep_drafts(drafts, key);
  field.type("Larch ad");
  EXPECT_EQ(drafts.draft(key), QString("Larch ad"));
  EXPECT_TRUE(field.commit());
  EXPECT_EQ(drafts.draft(key), std::nullopt);
}

TEST_F(FieldWithDrafts, OffersWhatWasLeftAndDoesNotImposeIt) {
  drafts.keep(key, "Larch ad");
  field.keep_drafts(drafts, key);
  EXPECT_EQ(field.typed(), "Larch");
  EXPECT_TRUE(field.editor()->accessibleDescription().contains("Larch ad"));
  press(field.line(), Qt::Key_Z, Qt::ControlModifier);
  EXPECT_EQ(field.typed(), "Larch ad");
  EXPECT_TRUE(field.pending());
}

TEST_F(FieldWithDrafts, LeavingTheRecordKeepsRefusedText) {
  field.keep_drafts(drafts, key);
  refuse = true;
  field.type("Larch adit");
  QWidget form;
  field.setParent(&form);
  leave_all(&form);
  EXPECT_EQ(field.typed(), "");
  EXPECT_FALSE(field.refused());
  EXPECT_EQ(drafts.draft(key), QString("Larch adit"));
  field.setParent(nullptr);
}

}  // namespace
}  // namespace prillbook::ui
