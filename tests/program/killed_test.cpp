// SPDX-License-Identifier: GPL-3.0-or-later
// The program with its window, killed at random moments of a driven day: the notebook opens, the check finds nothing, every
// entry that the window had shown as accepted is there, and text that was left half typed is offered at the next start. The
// variable PRILLBOOK_KILLS sets how often; the target program_kills_long kills six hundred times.
#include <fmt/format.h>
#include <gtest/gtest.h>

#include <algorithm>
#include <optional>
#include <random>

#include "app/batch/notebook_verbs.h"
#include "tests/program/held.h"
#include "tests/program/own_home.h"
#include "tests/support/killed_process.h"

namespace prillbook::program {
namespace {

using testing_support::Accepted;
using testing_support::HalfTyped;
using testing_support::WindowDay;

constexpr int kills_of_a_notebook = 25;  // then a fresh one: a check takes longer with every entry
constexpr int texts_of_a_life = 40;      // so that each life types other texts
constexpr int kills_to_half_typed = 10;
constexpr std::string_view half_typed = "half\t";
constexpr int longest_rest_us = 500'000;  // the driver leaves half-typed text alone for longer
constexpr int longest_life_us = 1'500'000;

struct Counts {
  int kills = 0, accepted = 0, half = 0, offered = 0;
};

class KilledDesk : public testing::Test {
 protected:
  testing_support::TempFolder folder;
  OwnHome home{folder};
  std::string file;
  std::vector<Accepted> accepted;
  std::optional<HalfTyped> half;
  std::mt19937 dice{626};
  Counts counts;

  void begin_notebook() {
    file = folder.file(fmt::format("lab{}.prillbook", counts.kills));
    EXPECT_TRUE(batch::notebook_new(file).ok());
    accepted.clear();
    half.reset();
  }
  std::vector<std::string> command() const {
    std::vector<std::string> words{DESK_DRIVER, file, std::to_string(counts.kills % WindowDay::scenes),
                                   std::to_string(counts.kills * texts_of_a_life)};
    if (half) words.insert(words.end(), {half->portion.toStdString(), half->label.toStdString(), half->text.toStdString()});
    return words;
  }
  // Half-typed text is waited for now and then, and always what becomes of it.
  std::string_view waited_for() const {
    if (half) return "offered\t";
    return counts.kills % kills_to_half_typed == 0 ? half_typed : "";
  }
  void live_and_be_killed() {
    const std::string_view word = waited_for();
    const std::chrono::microseconds life(dice() % (word == half_typed ? longest_rest_us : longest_life_us));
    const auto said = QString::fromStdString(testing_support::said_before_killed(command(), life, word));
    ASSERT_TRUE(said.startsWith("up\n")) << "the window did not open, kill " << counts.kills << ": " << said.toStdString();
    for (const QString& line : said.split('\n', Qt::SkipEmptyParts)) ASSERT_NO_FATAL_FAILURE(hear(line.split('\t')));
    ++counts.kills;
  }
  void hear(const QStringList& parts) {
    if (parts[0] == "accepted") {
      accepted.push_back({parts.value(1).toStdString(), parts.value(2).toStdString()});
      ++counts.accepted;
      half.reset();
    } else if (parts[0] == "half") {
      half = {parts.value(1), parts.value(2), parts.value(3), parts.value(4)};
      ++counts.half;
    } else if (parts[0] == "offered") {
      half.reset();
      ++counts.offered;
    } else {
      ASSERT_EQ(parts[0].toStdString(), "up") << parts.join(' ').toStdString();
    }
  }
  void expect_nothing_lost() {
    const auto held = held_entries(file);
    ASSERT_TRUE(held.ok()) << "kill " << counts.kills << ": " << held.error().detail;
    for (const Accepted& one : missing(accepted, *held))
      ADD_FAILURE() << "kill " << counts.kills << ": " << one.field << " “" << one.typed << "”";
    const bool written = half && std::any_of(held->begin(), held->end(),
                                             [&](const Accepted& one) { return one.typed == half->whole.toStdString(); });
    if (written) half.reset();  // typed on in the moment before the kill
  }
};

TEST_F(KilledDesk, LosesNothingItsWindowHadShownAsAccepted) {
  const int kills = testing_support::kills_wanted(3);
  while (counts.kills < kills) {
    if (counts.kills % kills_of_a_notebook == 0) begin_notebook();
    ASSERT_NO_FATAL_FAILURE(live_and_be_killed());
    ASSERT_NO_FATAL_FAILURE(expect_nothing_lost());
  }
  EXPECT_GT(counts.accepted, kills) << "it did get work done";
  EXPECT_GT(counts.offered, 0);
  fmt::print("  {} kills, {} entries shown as accepted, none missing; {} texts left half typed, {} offered at the next start\n",
             counts.kills, counts.accepted, counts.half, counts.offered);
}

}  // namespace
}  // namespace prillbook::program
