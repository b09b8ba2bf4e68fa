// SPDX-License-Identifier: GPL-3.0-or-later
#include <gtest/gtest.h>

#include <filesystem>
#include <fstream>

#include "core/history/fields.h"
#include "core/store/writer_lock.h"
#include "core/upkeep/check.h"
#include "core/upkeep/keep.h"
#include "tests/support/notebook.h"

namespace prillbook::upkeep {
namespace {

namespace fs = std::filesystem;
namespace fields = history::fields;
using history::ChangeSet;
using history::Entity;
using testing_support::FileNotebook;

std::string bytes_of(const std::string& path) {
  std::ifstream file(path, std::ios::binary);
  return {std::istreambuf_iterator<char>(file), {}};
}

class BackupTest : public testing::Test {
 protected:
  FileNotebook notebook;
  std::string copy = notebook.folder.file("copy.prillbook");

  BackupTest() { add_client("Larch Adit Syndicate"); }
  void add_client(const std::string& name) {
    EXPECT_TRUE(notebook.journal
                    ->record("add client",
                             [&](ChangeSet& set) -> Result<void> {
                               PRILLBOOK_TRY(set.make(Entity::client, {{fields::client::name, name}}));
                               return {};
                             })
                    .ok());
  }
  std::vector<std::string> names() {
    std::vector<std::string> found;
    for (const auto& entry : fs::directory_iterator(notebook.folder.path())) found.push_back(entry.path().filename().string());
    return found;
  }
};

TEST_F(BackupTest, CopyHoldsTheSameHistory) {
  const auto done = back_up(*notebook.connection, copy);
  ASSERT_TRUE(done.ok()) << done.error().detail;
  const auto report = check_notebook(copy);
  ASSERT_TRUE(report.ok()) << report.error().detail;
  EXPECT_TRUE(report->sound());
  EXPECT_EQ(report->head, notebook.journal->head());
  EXPECT_THAT(names(), testing::UnorderedElementsAre("lab.prillbook", "copy.prillbook"));
}

TEST_F(BackupTest, ExistingTargetIsRefusedUnlessToldOtherwise) {
  ASSERT_TRUE(back_up(*notebook.connection, copy).ok());
  const std::string before = bytes_of(copy);
  add_client("Second");
  EXPECT_EQ(back_up(*notebook.connection, copy).error().code, ErrorCode::already_exists);
  EXPECT_EQ(bytes_of(copy), before);
  store::BackupOptions options;
  options.replace = true;
  ASSERT_TRUE(back_up(*notebook.connection, copy, options).ok());
  EXPECT_EQ(check_notebook(copy)->head, notebook.journal->head());
}

TEST_F(BackupTest, NotebookOpenInAnotherWindowIsNotReplaced) {
  ASSERT_TRUE(back_up(*notebook.connection, copy).ok());
  const auto held = store::WriterLock::take(copy, {});
  store::BackupOptions options;
  options.replace = true;
  EXPECT_EQ(back_up(*notebook.connection, copy, options).error().code, ErrorCode::locked);
}

TEST_F(BackupTest, NeverOntoItself) {
  store::BackupOptions options;
  options.replace = true;
  const std::string before = bytes_of(notebook.path);
  EXPECT_EQ(back_up(*notebook.connection, notebook.path, options).error().code, ErrorCode::conflict);
  fs::create_symlink(notebook.path, notebook.folder.file("x.part"));
  EXPECT_EQ(back_up(*notebook.connection, notebook.folder.file("x"), options).error().code, ErrorCode::conflict);
  EXPECT_EQ(bytes_of(notebook.path), before);
}

TEST_F(BackupTest, JournalBesideTheTargetIsNotPlayedIntoTheCopy) {
  std::ofstream(copy + "-journal") << "left by an interrupted entry";
  EXPECT_EQ(back_up(*notebook.connection, copy).error().code, ErrorCode::locked);
  EXPECT_FALSE(fs::exists(copy));
}

TEST_F(BackupTest, StoppedBackupLeavesNothing) {
  Cancellation cancellation;
  cancellation.request();
  store::BackupOptions options;
  options.cancellation = &cancellation;
  EXPECT_EQ(back_up(*notebook.connection, copy, options).error().code, ErrorCode::cancelled);
  EXPECT_THAT(names(), testing::ElementsAre("lab.prillbook"));
}

TEST_F(BackupTest, LeftoverOfACrashedBackupIsWrittenOver) {
  std::ofstream(copy + ".part") << "half a copy";
  ASSERT_TRUE(back_up(*notebook.connection, copy).ok());
  EXPECT_TRUE(check_notebook(copy)->sound());
}

TEST_F(BackupTest, FaultInTheNotebookIsNotCopiedSilently) {
  ASSERT_TRUE(notebook.connection->run_derived("UPDATE client SET name = 'Another'", {}).ok());
  const auto done = back_up(*notebook.connection, copy);
  ASSERT_FALSE(done.ok());
  EXPECT_EQ(done.error().code, ErrorCode::damaged);
  EXPECT_EQ(done.error().field, "client 1.name");
  EXPECT_FALSE(fs::exists(copy));
}

TEST_F(BackupTest, TellsHowFarItIs) {
  long last = 0, total = 0;
  store::BackupOptions options;
  options.progress = [&](long done, long of) {
    last = done;
    total = of;
  };
  ASSERT_TRUE(back_up(*notebook.connection, copy, options).ok());
  EXPECT_GT(total, 0);
  EXPECT_EQ(last, total);
}

TEST_F(BackupTest, FolderMustBeThere) {
  EXPECT_EQ(back_up(*notebook.connection, notebook.folder.file("gone/copy.prillbook")).error().code, ErrorCode::not_found);
}

TEST_F(BackupTest, NameOfTheBackupBeforeAMigrationIsFree) {
  const std::string first = notebook.folder.file("lab.before-v2.prillbook");
  EXPECT_EQ(free_backup_name(notebook.path, 2), first);
  std::ofstream(first) << "taken";
  EXPECT_EQ(free_backup_name(notebook.path, 2), notebook.folder.file("lab.before-v2-2.prillbook"));
}

TEST_F(BackupTest, NewestSchemaNeedsNoBackup) {
  const auto made = migrate_with_backup(*notebook.connection);
  ASSERT_TRUE(made.ok());
  EXPECT_FALSE(made->has_value());
  EXPECT_THAT(names(), testing::ElementsAre("lab.prillbook"));
}

}  // namespace
}  // namespace prillbook::upkeep
