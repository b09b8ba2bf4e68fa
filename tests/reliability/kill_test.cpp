// SPDX-License-Identifier: GPL-3.0-or-later
// A program that is killed in the middle of its work: what it had said was written is there when the notebook is opened
// next. The variable PRILLBOOK_KILLS sets how often; the target reliability_long kills a thousand times.
#include <fcntl.h>
#include <fmt/format.h>
#include <gtest/gtest.h>
#include <spawn.h>
#include <sys/wait.h>
#include <unistd.h>

#include <array>
#include <charconv>
#include <chrono>
#include <csignal>
#include <cstdlib>
#include <random>
#include <string_view>
#include <thread>

#include "core/history/rows.h"
#include "core/upkeep/check.h"
#include "tests/support/notebook.h"

namespace prillbook {
namespace {

int kills_wanted() {
  const char* text = std::getenv("PRILLBOOK_KILLS");
  int kills = 20;
  if (text) std::from_chars(text, text + std::string_view(text).size(), kills);
  return kills;
}

// Runs the writer for a while, kills it and gives everything it said.
std::string said_before_killed(const std::string& path, std::chrono::microseconds life) {
  std::array<int, 2> ends{};
  if (pipe2(ends.data(), O_CLOEXEC) != 0) return "";
  posix_spawn_file_actions_t actions;
  posix_spawn_file_actions_init(&actions);
  posix_spawn_file_actions_adddup2(&actions, ends[1], STDOUT_FILENO);
  std::string program = LAB_WRITER, file = path;
  std::array<char*, 3> arguments{program.data(), file.data(), nullptr};
  pid_t child = 0;
  const int started = posix_spawn(&child, LAB_WRITER, &actions, nullptr, arguments.data(), environ);
  posix_spawn_file_actions_destroy(&actions);
  close(ends[1]);
  std::string said;
  std::array<char, 4096> buffer{};
  if (started == 0) {
    // The first word shows that it is at work; loading the program is not what is to be killed.
    ssize_t count = read(ends[0], buffer.data(), buffer.size());
    if (count > 0) said.append(buffer.data(), static_cast<std::size_t>(count));
    std::this_thread::sleep_for(life);
    kill(child, SIGKILL);
    waitpid(child, nullptr, 0);
    while ((count = read(ends[0], buffer.data(), buffer.size())) > 0) said.append(buffer.data(), static_cast<std::size_t>(count));
  }
  close(ends[0]);
  return said;
}

TEST(KilledProgram, LosesNothingItHadSaidWasWritten) {
  const testing_support::TempFolder folder;
  const std::string path = folder.file("lab.prillbook");
  ASSERT_TRUE(store::Connection::create(path).ok());
  std::mt19937 dice(26);
  std::int64_t accepted = 0, found_more = 0;
  const int kills = kills_wanted();
  for (int number = 0; number < kills; ++number) {
    const std::string said = said_before_killed(path, std::chrono::microseconds(dice() % 60'000));
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

}  // namespace
}  // namespace prillbook
