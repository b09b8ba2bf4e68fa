// SPDX-License-Identifier: GPL-3.0-or-later
// The program with its window, killed at random moments of a driven day: the notebook opens, the check finds nothing, every
// entry that the window had shown as accepted is there, a file that it wrote is whole or not there, and text that was left
// half typed is offered at the next start. Each life begins with the next scene of the day, and its end is somewhere in the
// time that the scene was last seen to take. The variable PRILLBOOK_KILLS sets how often; the target program_kills_long
// kills six hundred times.
#include <fmt/format.h>
#include <gtest/gtest.h>

#include <algorithm>
#include <cstdio>
#include <filesystem>
#include <optional>
#include <random>

#include "app/batch/notebook_verbs.h"
#include "core/lab/lab.h"
#include "core/upkeep/copies.h"
#include "tests/program/held.h"
#include "tests/program/own_home.h"
#include "tests/support/killed_process.h"
#include "tests/support/whole_file.h"

namespace prillbook::program {
namespace {

using testing_support::Accepted;
using testing_support::HalfTyped;
using testing_support::WindowDay;

constexpr int kills_of_a_notebook = 25;  // then a fresh one: a check takes longer with every entry
constexpr int texts_of_a_life = 60;      // so that each life types other texts
constexpr int kills_to_half_typed = 10;
constexpr int sheet_scene = 3, furnace_scene = 5;  // where text is left half typed
constexpr std::string_view half_typed = "half\t", offered = "offered\t";
constexpr double longest_rest_ms = 500;  // the driver leaves half-typed text alone for longer
constexpr double usual_scene_ms = 1500;  // where none was seen from its beginning to its end
constexpr int enough_for_every_scene = 100, kills_between_news = 50;

struct Counts {
  int kills = 0, accepted = 0, files = 0, copies = 0, half = 0, offered = 0;
};

// What becomes of a scene in all lives together.
struct SceneLife {
  double ms = usual_scene_ms;
  int kills = 0;
};

class KilledDesk : public testing::Test {
 protected:
  testing_support::TempFolder folder;
  OwnHome home{folder};
  std::string file;
  std::vector<Accepted> accepted;
  std::vector<std::string> files;
  std::optional<HalfTyped> half;
  std::mt19937 dice;
  int notebooks = 0;
  Counts counts;
  std::vector<SceneLife> scenes = std::vector<SceneLife>(std::size_t(WindowDay::scenes()));
  int scene = 0;         // where the life begins
  int scene_before = 0;  // of the lives that go round all of them
  int scene_at_end = -1;

  void begin_notebook(bool somebody_works) {
    file = folder.file(fmt::format("lab{}.prillbook", ++notebooks));
    EXPECT_TRUE(batch::notebook_new(file).ok());
    accepted.clear();
    half.reset();
    if (!somebody_works) return;
    const auto connection = store::Connection::open(file, store::Access::read_write).value();
    SystemClock clock;
    EXPECT_TRUE(lab::add_person(*history::Journal::open(*connection, clock).value(), "HM").ok());
  }
  // Once in each notebook the first steps in an empty lab, now and then a place where text is left half typed, else the
  // next scene of the day.
  void choose_scene() {
    if (counts.kills % kills_of_a_notebook == 0)
      scene = 0;
    else if (waits_for_half_typed())
      scene = counts.kills / kills_to_half_typed % 2 == 0 ? sheet_scene : furnace_scene;
    else
      scene = scene_before = 1 + scene_before % (WindowDay::scenes() - 1);
  }
  bool waits_for_half_typed() const { return counts.kills % kills_to_half_typed == 1; }
  std::vector<std::string> command() const {
    std::vector<std::string> words{DESK_DRIVER, file, std::to_string(scene), std::to_string(counts.kills * texts_of_a_life)};
    if (half) words.insert(words.end(), {half->portion.toStdString(), half->label.toStdString(), half->text.toStdString()});
    return words;
  }
  void live_and_be_killed() {
    choose_scene();
    const bool waits_for_half = !half && waits_for_half_typed();
    const std::string begun = fmt::format("scene\t{}\n", scene);
    const std::string_view word = half ? offered : waits_for_half ? half_typed : begun;
    SceneLife& begins_with = scenes[std::size_t(scene)];
    const double longest = waits_for_half ? longest_rest_ms : 1.1 * begins_with.ms;
    const std::chrono::microseconds life(std::int64_t(1000 * longest * (dice() / 4294967296.0)));
    const auto said = QString::fromStdString(testing_support::said_before_killed(command(), life, word));
    ASSERT_TRUE(said.startsWith("up\n")) << "the window did not open, kill " << counts.kills << ": " << said.toStdString();
    scene_at_end = -1;
    for (const QString& line : said.split('\n', Qt::SkipEmptyParts)) ASSERT_NO_FATAL_FAILURE(hear(line.split('\t')));
    if (scene_at_end == scene && !waits_for_half && life.count() > 900 * begins_with.ms) begins_with.ms *= 1.3;
    if (scene_at_end >= 0) ++scenes[std::size_t(scene_at_end)].kills;
    ++counts.kills;
  }
  // A life that goes once round the day; its end comes after the last scene.
  void measure_scenes() {
    begin_notebook(true);
    scene = 0;
    const std::string last = fmt::format("played\t{}\t", WindowDay::scenes() - 1);
    const auto said = QString::fromStdString(testing_support::said_before_killed(command(), {}, last));
    for (const QString& line : said.split('\n', Qt::SkipEmptyParts))
      if (!line.startsWith("half\t")) {
        ASSERT_NO_FATAL_FAILURE(hear(line.split('\t')));
      }
    ASSERT_NO_FATAL_FAILURE(expect_nothing_lost());
    ASSERT_NO_FATAL_FAILURE(expect_whole_files());
    scenes.front().ms = usual_scene_ms;  // nothing was left to do in it
    counts = {};
  }
  void hear(const QStringList& parts) {
    if (parts[0] == "accepted") {
      accepted.push_back({parts.value(1).toStdString(), parts.value(2).toStdString()});
      ++counts.accepted;
      half.reset();
    } else if (parts[0] == "file") {
      files.push_back(parts.value(1).toStdString());
      ++counts.files;
    } else if (parts[0] == "scene") {
      scene_at_end = parts.value(1).toInt();
    } else if (parts[0] == "played") {
      scenes[parts.value(1).toUInt()].ms = parts.value(2).toDouble();
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
  // Those said to be written are there; none is there by halves, no copy of the notebook either.
  void expect_whole_files() {
    for (const std::string& path : files) EXPECT_TRUE(std::filesystem::exists(path)) << path;
    files.clear();
    for (const auto& entry : std::filesystem::directory_iterator(folder.file("files")))
      if (entry.is_regular_file() && entry.path().extension() != ".part") {
        EXPECT_TRUE(testing_support::is_whole_file(entry.path().string())) << "kill " << counts.kills << ": " << entry.path();
      }
    std::filesystem::remove_all(folder.file("files"));
    const std::string place = upkeep::usual_copy_place(file);
    for (const upkeep::Copy& copy : upkeep::copies_in(place, file)) {
      const auto held = held_entries(copy.path);
      EXPECT_TRUE(held.ok()) << "kill " << counts.kills << ": " << copy.path;
      ++counts.copies;
    }
    std::filesystem::remove_all(place);
  }
  void tell() const {
    std::vector<std::string> in_scenes;
    for (std::size_t i = 0; i < scenes.size(); ++i)
      in_scenes.push_back(fmt::format("{} {}", WindowDay::scene_names()[int(i)].toStdString(), scenes[i].kills));
    fmt::print(
        "  {} kills, {} entries and {} files shown as written, {} copies taken; {} texts left half typed, {} offered at the next "
        "start\n",
        counts.kills, counts.accepted, counts.files, counts.copies, counts.half, counts.offered);
    fmt::print("  kills in each scene: {}\n", fmt::join(in_scenes, ", "));
    std::fflush(stdout);
  }
};

TEST_F(KilledDesk, LosesNothingItsWindowHadShownAsAccepted) {
  const int kills = testing_support::kills_wanted(3);
  dice.seed(std::uint32_t(626 + kills));
  if (kills >= enough_for_every_scene) {
    ASSERT_NO_FATAL_FAILURE(measure_scenes());
  }
  while (counts.kills < kills) {
    if (counts.kills % kills_of_a_notebook < 2) begin_notebook(counts.kills % kills_of_a_notebook == 1);
    ASSERT_NO_FATAL_FAILURE(live_and_be_killed());
    ASSERT_NO_FATAL_FAILURE(expect_nothing_lost());
    ASSERT_NO_FATAL_FAILURE(expect_whole_files());
    if (counts.kills % kills_between_news == 0) tell();
  }
  tell();
  EXPECT_GT(counts.accepted, kills) << "it did get work done";
  EXPECT_GT(counts.offered, 0);
  if (kills < enough_for_every_scene) return;
  for (std::size_t i = 0; i < scenes.size(); ++i) EXPECT_GT(scenes[i].kills, 0) << WindowDay::scene_names()[int(i)].toStdString();
}

}  // namespace
}  // namespace prillbook::program
