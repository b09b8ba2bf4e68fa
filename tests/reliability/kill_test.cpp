// SPDX-License-Identifier: GPL-3.0-or-later
// A program that is killed in the middle of its work: what it had said was written is there when the notebook is opened
// next, and where it was putting a copy in the place of the notebook, one of the two is there, and the other is not lost.
// The variable PRILLBOOK_KILLS sets how often; the target reliability_long kills a thousand times.
#include <fmt/format.h>
#include <gmock/gmock.h>

#include <algorithm>
#include <array>
#include <charconv>
#include <filesystem>
#include <random>

#include "core/history/fields.h"
#include "core/history/rows.h"
#include "core/upkeep/check.h"
#include "core/upkeep/keep.h"
#include "core/upkeep/restore.h"
#include "tests/support/killed_process.h"
#include "tests/support/notebook.h"

namespace prillbook {
namespace {

TEST(KilledProgram, LosesNothingItHadSaidWasWritten) {
  const testing_support::TempFolder folder;
  const std::string path = folder.file("lab.prillbook");
  ASSERT_TRUE(store::Connection::create(path).ok());
  std::mt19937 dice(26);
  std::int64_t accepted = 0, found_more = 0;
  const int kills = testing_support::kills_wanted(20);
  for (int number = 0; number < kills; ++number) {
    const std::string said = testing_support::said_before_killed({LAB_WRITER, path}, std::chrono::microseconds(dice() % 60'000));
    ASSERT_FALSE(said.empty()) << "the writer did not start, kill " << number;
    const auto line_start = said.rfind('\n', said.size() - 2) + 1;
    const std::string last = said.substr(line_start, said.size() - 1 - line_start);
    std::from_chars(last.data(), last.data() + last.size(), accepted);
    const auto connection = store::Connection::open(path, store::Access::read_write);
    ASSERT_TRUE(connection.ok()) << connection.error().detail;
    const auto report = upkeep::check_notebook(**connection);
    ASSERT_TRUE(report.ok() && report->sound()) << number;
    std::string hash;
    std::int64_t newest = 0;
    ASSERT_TRUE(history::each_history_row(**connection, [&](const history::HistoryRow& row) -> Result<void> {
                  if (row.change_set == accepted) hash = history::hex(row.hash);
                  newest = row.change_set;
                  return {};
                }).ok());
    ASSERT_EQ(fmt::format("{} {}", accepted, hash), last) << "kill " << number;
    ASSERT_LE(newest, accepted + 1);
    found_more += newest - accepted;
  }
  EXPECT_GT(accepted, kills) << "it did get work done";
  fmt::print("  {} kills, {} gestures accepted; {} times one more was found written\n", kills, accepted, found_more);
}

// The head of a sound notebook's history; empty where it is not sound.
std::string head_of(const std::string& path) {
  const auto report = upkeep::check_notebook(path);
  return report.ok() && report->sound() ? history::hex(report->head) : "";
}

struct KilledRestore : testing::Test {
  testing_support::TempFolder folder;
  std::string path = folder.file("lab.prillbook"), one = folder.file("one"), other = folder.file("other");

  // Adds clients to the notebook at `path`.
  void add_clients(int count) {
    SteppingClock clock = testing_support::monday_morning();
    const auto connection = store::Connection::open(path, store::Access::read_write).value();
    const auto journal = history::Journal::open(*connection, clock).value();
    ASSERT_TRUE(
        journal
            ->record(
                "add clients",
                [&](history::ChangeSet& set) -> Result<void> {
                  for (int i = 0; i < count; ++i)
                    PRILLBOOK_TRY(set.make(history::Entity::client, {{history::fields::client::name, std::string(100, 'c')}}));
                  return {};
                })
            .ok());
  }
  // What was taken out of the notebook's place, by the head of its history.
  std::vector<std::string> heads_kept() const {
    std::vector<std::string> heads;
    for (const auto& file : std::filesystem::directory_iterator(folder.path()))
      if (const std::string name = file.path().filename(); name.starts_with("lab.replaced-") && name.ends_with(".prillbook"))
        heads.push_back(head_of(file.path()));
    return heads;
  }
  void clear_away() {
    for (const auto& file : std::filesystem::directory_iterator(folder.path()))
      if (file.path().filename().string().starts_with("lab.replaced-")) std::filesystem::remove(file);
  }
};

TEST_F(KilledRestore, LeavesOneOfTheTwoAndLosesNeither) {
  ASSERT_TRUE(store::Connection::create(path).ok());
  ASSERT_NO_FATAL_FAILURE(add_clients(3));
  ASSERT_TRUE(upkeep::back_up(path, one).ok());
  ASSERT_NO_FATAL_FAILURE(add_clients(200));
  ASSERT_TRUE(upkeep::back_up(path, other).ok());
  const std::array copies{head_of(one), head_of(other)};
  // The life of a program is that of up to ten such steps, however busy the computer is.
  const auto begun = std::chrono::steady_clock::now();
  ASSERT_TRUE(upkeep::restore_copy(path, one, SystemClock().now()).ok());
  const std::chrono::microseconds step =
      std::chrono::duration_cast<std::chrono::microseconds>(std::chrono::steady_clock::now() - begun);
  clear_away();
  std::mt19937 dice(27);
  int restored = 0, before_the_first = 0;
  const int kills = testing_support::kills_wanted(8);
  for (int number = 0; number < kills; ++number) {
    ASSERT_NO_FATAL_FAILURE(add_clients(1));
    const std::string found = head_of(path);
    const std::string said = testing_support::said_before_killed({COPY_RESTORER, path, one, other}, step * (dice() % 1000) / 100);
    ASSERT_TRUE(said.starts_with("ready")) << "the program did not start, kill " << number;
    const auto done = std::count(said.begin(), said.end(), '\n') - 1;
    const std::string there = head_of(path);
    // The last step may be done and not be said yet.
    ASSERT_TRUE(there == (done ? copies[std::size_t((done + 1) % 2)] : found) || there == copies[std::size_t(done % 2)])
        << number;
    if (there != found) ASSERT_THAT(heads_kept(), testing::Contains(found)) << "kill " << number;
    restored += int(done);
    before_the_first += there == found;
    clear_away();
  }
  EXPECT_GT(restored, 0) << "it did get work done";
  fmt::print("  {} kills, {} copies restored; {} times the first was not there yet\n", kills, restored, before_the_first);
}

}  // namespace
}  // namespace prillbook
