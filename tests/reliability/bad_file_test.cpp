// SPDX-License-Identifier: GPL-3.0-or-later
// Files that are no notebook, are damaged, or can not be written: never a crash, always an answer.
#include <SQLiteCpp/Database.h>
#include <fmt/format.h>
#include <gtest/gtest.h>
#include <sys/wait.h>
#include <unistd.h>

#include <array>
#include <csignal>
#include <filesystem>
#include <random>

#include "core/exchange/notebook_dump.h"
#include "core/store/backup.h"
#include "core/upkeep/check.h"
#include "tests/reliability/day_on_disk.h"
#include "tests/support/failing_vfs.h"

namespace prillbook {
namespace {

using store::Access;
using store::Connection;
using testing_support::DiskFault;
using testing_support::file_text;

class BadFileTest : public testing_support::DayOnDisk {
 protected:
  // Opens and checks both ways; the answer for writing, ok where the notebook is sound.
  Result<void> answer() {
    (void)upkeep::check_notebook(path);
    PRILLBOOK_ASSIGN(const auto connection, Connection::open(path, Access::read_write));
    PRILLBOOK_ASSIGN(const auto report, upkeep::check_notebook(*connection));
    return upkeep::sound_or_error(report, path);
  }
  void run_raw(const std::string& sql) {
    SQLite::Database raw(path, SQLite::OPEN_READWRITE);
    raw.exec(sql);
  }
  std::vector<std::string> names() {
    std::vector<std::string> found;
    for (const auto& entry : std::filesystem::directory_iterator(folder.path()))
      found.push_back(entry.path().filename().string());
    return found;
  }
};

TEST_F(BadFileTest, NoNotebook) {
  put("");
  EXPECT_EQ(answer().error().code, ErrorCode::not_a_notebook);
  put(std::string(5000, 'x'));
  EXPECT_EQ(answer().error().code, ErrorCode::not_a_notebook);
  EXPECT_EQ(Connection::open(folder.path().string(), Access::read_only).error().code, ErrorCode::not_a_notebook);
  EXPECT_EQ(Connection::open(folder.file("gone"), Access::read_write).error().code, ErrorCode::not_found);
  EXPECT_EQ(Connection::create(path).error().code, ErrorCode::already_exists);
}

TEST_F(BadFileTest, AnotherProgramsDatabase) {
  run_raw("PRAGMA application_id = 77");
  EXPECT_EQ(answer().error().code, ErrorCode::not_a_notebook);
  EXPECT_EQ(upkeep::check_notebook(path).error().code, ErrorCode::not_a_notebook);
}

TEST_F(BadFileTest, NotebookOfALaterVersion) {
  run_raw("PRAGMA user_version = 9999");
  EXPECT_EQ(Connection::open(path, Access::read_write).error().code, ErrorCode::newer_version);
  EXPECT_TRUE(Connection::open(path, Access::read_only).ok());
  EXPECT_EQ(upkeep::check_notebook(path).error().code, ErrorCode::newer_version);
}

TEST_F(BadFileTest, CutShort) {
  int told = 0;
  for (const double share : {0.001, 0.01, 0.1, 0.3, 0.5, 0.7, 0.9, 0.99, 0.9999}) {
    put(bytes.substr(0, static_cast<std::size_t>(share * static_cast<double>(bytes.size()))));
    told += !answer().ok();
  }
  EXPECT_EQ(told, 9);
}

// A flipped bit is told, or else it lies where nothing is kept: then the notebook says exactly what it said before.
TEST_F(BadFileTest, FlippedBits) {
  std::mt19937 dice(4);
  constexpr int rounds = 120;
  int told = 0, harmless = 0;
  for (int round = 0; round < rounds; ++round) {
    std::string text = bytes;
    // Most of a small notebook is the unused room of its pages, all zero: where something stands is asked.
    std::size_t at = dice() % text.size();
    while (text[at] == 0) at = dice() % text.size();
    text[at] = static_cast<char>(text[at] ^ (1u << (dice() % 8)));
    put(text);
    if (!answer().ok()) {
      ++told;
      continue;
    }
    ++harmless;
    const auto connection = Connection::open(path, Access::read_only);
    ASSERT_TRUE(connection.ok()) << at;
    ASSERT_TRUE(*exchange::dump_notebook(**connection) == dump) << "bit at byte " << at;
  }
  EXPECT_GT(told, rounds / 4);
  fmt::print("  {} flipped bits: {} told, {} where nothing is kept\n", rounds, told, harmless);
}

TEST_F(BadFileTest, ManyFlippedBytes) {
  std::mt19937 dice(5);
  for (int round = 0; round < 60; ++round) {
    std::string text = bytes;
    for (int i = 0; i < 200; ++i) text[100 + dice() % (text.size() - 100)] = static_cast<char>(dice());
    put(text);
    EXPECT_FALSE(answer().ok()) << round;
  }
}

TEST_F(BadFileTest, WriteAheadLogOfAnotherProgram) {
  run_raw("PRAGMA journal_mode = WAL");
  EXPECT_EQ(Connection::open(path, Access::read_only).error().code, ErrorCode::locked);
  EXPECT_THAT(names(), testing::ElementsAre("lab.prillbook")) << "nothing is left behind";
  EXPECT_TRUE(answer().ok()) << "opened for writing it is turned back";
  EXPECT_TRUE(upkeep::check_notebook(path)->sound());
  EXPECT_THAT(names(), testing::ElementsAre("lab.prillbook"));
}

TEST_F(BadFileTest, JournalOfAnInterruptedEntry) {
  testing_support::FailingDisk disk;
  long at = 0;
  bool hot = false;
  // Somewhere in writing an entry the journal is synced and the file is not yet written through.
  while (!hot && ++at < 100) {
    put(bytes);
    disk.arm(DiskFault::power_cut, at);
    if (const auto connection = Connection::open(path, Access::read_write, disk.vfs()); connection.ok())
      (void)(*connection)->run_derived("UPDATE client SET name = 'half written'", {});
    disk.settle(testing_support::Unsynced::kept);
    hot = !Connection::open(path, Access::read_only).ok();
  }
  ASSERT_TRUE(hot);
  EXPECT_EQ(upkeep::check_notebook(path).error().code, ErrorCode::locked) << "reading alone does not touch the file";
  EXPECT_TRUE(std::filesystem::exists(path + "-journal"));
  EXPECT_TRUE(answer().ok()) << "opened for writing the entry is taken back";
  EXPECT_EQ(exchange::dump_notebook(**Connection::open(path, Access::read_only)).value(), dump);
}

TEST_F(BadFileTest, FileThatCanNotBeWritten) {
  testing_support::FailingDisk disk;
  disk.refuse_writing(true, true);
  EXPECT_EQ(Connection::open(path, Access::read_write, disk.vfs()).error().code, ErrorCode::read_only);
  const auto report = upkeep::check_notebook(path, {}, disk.vfs());
  ASSERT_TRUE(report.ok()) << report.error().detail;
  EXPECT_TRUE(report->sound());
  EXPECT_TRUE(file_text(path) == bytes);
}

TEST_F(BadFileTest, FolderThatCanNotBeWritten) {
  testing_support::FailingDisk disk;
  disk.refuse_writing(false, true);
  SteppingClock clock = testing_support::monday_morning();
  const auto connection = Connection::open(path, Access::read_write, disk.vfs());
  ASSERT_TRUE(connection.ok()) << "SQLite sees it only at the first entry";
  const auto journal = history::Journal::open(**connection, clock).value();
  const auto day = testing_support::lab_day();
  EXPECT_EQ(testing_support::do_gesture(*journal, clock, day, day.size() - 1).error().code, ErrorCode::read_only);
  EXPECT_TRUE(file_text(path) == bytes);
}

TEST_F(BadFileTest, AnotherProcessIsWriting) {
  std::array<int, 2> ready{};
  ASSERT_EQ(pipe(ready.data()), 0);
  const pid_t child = fork();
  if (child == 0) {
    const auto connection = Connection::open(path, Access::read_write);
    (void)(*connection)->transaction([&]() -> Result<void> {
      (void)!write(ready[1], "x", 1);
      pause();
      return {};
    });
    _exit(0);
  }
  char word = 0;
  ASSERT_EQ(read(ready[0], &word, 1), 1);
  {
    SteppingClock clock = testing_support::monday_morning();
    const auto connection = Connection::open(path, Access::read_write).value();
    const auto journal = history::Journal::open(*connection, clock).value();
    const auto day = testing_support::lab_day();
    EXPECT_EQ(testing_support::do_gesture(*journal, clock, day, day.size() - 1).error().code, ErrorCode::locked);
    EXPECT_TRUE(upkeep::check_notebook(path)->sound()) << "reading goes on";
  }
  kill(child, SIGKILL);
  waitpid(child, nullptr, 0);
  close(ready[0]);
  close(ready[1]);
  EXPECT_TRUE(answer().ok());
}

}  // namespace
}  // namespace prillbook
