// SPDX-License-Identifier: GPL-3.0-or-later
// A program that is killed in the middle of its work: what it had said was written is there when the notebook is opened
// next. The variable PRILLBOOK_KILLS sets how often; the target reliability_long kills a thousand times.
#include <fmt/format.h>
#include <gtest/gtest.h>

#include <charconv>
#include <random>

#include "core/history/rows.h"
#include "core/upkeep/check.h"
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

}  // namespace
}  // namespace prillbook
