// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/store/writer_lock.h"

#include <gtest/gtest.h>
#include <sys/wait.h>
#include <unistd.h>

#include <atomic>
#include <filesystem>
#include <fstream>
#include <thread>

#include "core/store/connection.h"
#include "core/store/place.h"
#include "tests/support/notebook.h"

namespace prillbook::store {
namespace {

namespace fs = std::filesystem;
using testing_support::TempFolder;

const Instant nine = *parse_iso("2026-05-04T09:00:00.000+02:00");

class WriterLockTest : public testing::Test {
 protected:
  TempFolder folder;
  std::string path = folder.file("lab.prillbook");
};

// Runs `body` in another process; its result is the exit status.
int in_another_process(const std::function<int()>& body) {
  const pid_t child = fork();
  if (child == 0) _exit(body());
  int status = 0;
  waitpid(child, &status, 0);
  return WIFEXITED(status) ? WEXITSTATUS(status) : -1;
}

TEST_F(WriterLockTest, SecondTakerLearnsWhoHoldsIt) {
  const auto held = WriterLock::take(path, nine);
  ASSERT_TRUE(held.ok()) << held.error().detail;
  const auto second = WriterLock::take(path, nine);
  ASSERT_FALSE(second.ok()) << "one process holds it twice";
  EXPECT_EQ(second.error().code, ErrorCode::locked);
  ASSERT_EQ(second.error().arguments.size(), 5u);
  EXPECT_EQ(second.error().arguments[0], path);
  EXPECT_EQ(second.error().arguments[3], std::to_string(getpid()));
  EXPECT_EQ(second.error().arguments[4], "2026-05-04T09:00:00.000+02:00");
}

TEST_F(WriterLockTest, OtherProcessIsKeptOut) {
  const auto held = WriterLock::take(path, nine);
  ASSERT_TRUE(held.ok());
  const int status = in_another_process([&] {
    const auto taken = WriterLock::take(path, nine);
    return taken.ok() ? 1 : taken.error().code == ErrorCode::locked ? 0 : 2;
  });
  EXPECT_EQ(status, 0);
}

TEST_F(WriterLockTest, LinkToTheNotebookIsTheSameNotebook) {
  ASSERT_TRUE(Connection::create(path).ok());
  fs::create_symlink(path, folder.file("desk.prillbook"));
  const auto held = WriterLock::take(path, nine);
  EXPECT_EQ(WriterLock::take(folder.file("desk.prillbook"), nine).error().code, ErrorCode::locked);
}

TEST_F(WriterLockTest, GoesWithItsHolder) {
  { ASSERT_TRUE(WriterLock::take(path, nine).ok()); }
  EXPECT_TRUE(fs::is_empty(folder.path())) << "the side file is gone";
  EXPECT_TRUE(WriterLock::take(path, nine).ok());
}

TEST_F(WriterLockTest, SideFileOfAnotherMachineIsAskedAbout) {
  std::ofstream(path + ".lock") << "hm\nweigh-room\n4711\n2026-05-04T08:00:00.000+02:00\n";
  const auto taken = WriterLock::take(path, nine);
  ASSERT_FALSE(taken.ok());
  EXPECT_EQ(taken.error().code, ErrorCode::locked);
  EXPECT_EQ(taken.error().field, "elsewhere");
  EXPECT_EQ(taken.error().arguments[2], "weigh-room");
  EXPECT_TRUE(fs::exists(path + ".lock")) << "it stays as it was";
  EXPECT_TRUE(WriterLock::take(path, nine, TakeOver::from_any).ok());
  EXPECT_FALSE(fs::exists(path + ".lock")) << "and is ours from then on";
}

TEST_F(WriterLockTest, SharesAreKnownByTheirFileSystem) {
  for (const unsigned long share : {0x6969UL, 0xFF534D42UL, 0xFE534D42UL}) EXPECT_TRUE(is_share(static_cast<long>(share)));
  EXPECT_TRUE(is_share(static_cast<long>(static_cast<std::int32_t>(0xFF534D42U)))) << "the sign of a 32-bit machine";
  EXPECT_FALSE(is_share(0xEF53)) << "ext4";
  EXPECT_FALSE(lies_on_a_share(folder.file("lab.prillbook"))) << "and a file that is still to be made";
}

TEST_F(WriterLockTest, CrashLeavesAFileButNoLock) {
  in_another_process([&] {
    (void)*WriterLock::take(path, nine).value().release();
    return 0;
  });
  EXPECT_TRUE(fs::exists(path + ".lock"));
  EXPECT_TRUE(WriterLock::take(path, nine).ok());
}

TEST_F(WriterLockTest, SideFileMayHoldAnything) {
  std::ofstream(path + ".lock", std::ios::binary) << std::string("\x1b[2J\n\xC3\x28\n\0\n", 11) << std::string(5000, '\n');
  const auto held = WriterLock::take(path, nine);
  ASSERT_TRUE(held.ok());
  std::ofstream(path + ".lock", std::ios::binary) << std::string("\x1b[2J\n\xC3\x28\n7\n", 11);
  const auto second = WriterLock::take(path, nine);
  ASSERT_FALSE(second.ok());
  EXPECT_EQ(second.error().arguments, (std::vector<std::string>{path, "", "", "7", ""}));
}

TEST_F(WriterLockTest, FolderMustBeThere) {
  EXPECT_EQ(WriterLock::take(folder.file("gone/lab.prillbook"), nine).error().code, ErrorCode::not_found);
}

TEST_F(WriterLockTest, SideFileThatIsAFolderIsRefused) {
  fs::create_directory(path + ".lock");
  EXPECT_EQ(WriterLock::take(path, nine).error().code, ErrorCode::read_only);
}

// Two at once never both hold it, however taking and removing interleave.
TEST_F(WriterLockTest, NeverHeldTwice) {
  std::atomic<int> holders{0}, taken{0};
  std::atomic<bool> doubled{false};
  const auto work = [&] {
    for (int i = 0; i < 400; ++i) {
      const auto lock = WriterLock::take(path, nine);
      if (!lock.ok()) continue;
      if (++holders > 1) doubled = true;
      ++taken;
      --holders;
    }
  };
  std::thread first(work), second(work);
  first.join();
  second.join();
  EXPECT_FALSE(doubled);
  EXPECT_GT(taken, 20);
}

TEST_F(WriterLockTest, ReadingLeavesNoFileBehind) {
  ASSERT_TRUE(Connection::create(path).ok());
  const auto held = WriterLock::take(path, nine);
  {
    const auto reader = Connection::open(path, Access::read_only);
    ASSERT_TRUE(reader.ok()) << "a reader takes no lock";
    EXPECT_EQ(*(*reader)->version(), Connection::newest_version());
  }
  std::vector<std::string> names;
  for (const auto& entry : fs::directory_iterator(folder.path())) names.push_back(entry.path().filename().string());
  EXPECT_THAT(names, testing::UnorderedElementsAre("lab.prillbook", "lab.prillbook.lock"));
}

}  // namespace
}  // namespace prillbook::store
