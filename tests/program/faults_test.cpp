// SPDX-License-Identifier: GPL-3.0-or-later
// A driven day of the window on a disk that fails: the power cut, an error or a full disk at every write, truncation, sync
// and deletion in turn. The window neither falls over nor shows as accepted what the notebook does not hold, and says
// what went wrong; the notebook opens, and the check finds nothing. Each scene of the day begins with a fresh window on
// the notebook as the scene before left it. The variable PRILLBOOK_EVERY=1 takes each place (target program_faults_long).
#include <fmt/format.h>
#include <gtest/gtest.h>

#include <QtCore/QSettings>
#include <QtCore/QStandardPaths>
#include <algorithm>
#include <array>
#include <cstdio>
#include <cstdlib>

#include "app/batch/notebook_verbs.h"
#include "app/program/desk.h"
#include "core/store/backup.h"
#include "tests/program/held.h"
#include "tests/program/own_home.h"
#include "tests/support/failing_vfs.h"
#include "tests/support/files.h"
#include "tests/support/window_hand.h"

namespace prillbook::program {
namespace {

using testing_support::Accepted;
using testing_support::DiskFault;
using testing_support::FailingDisk;
using testing_support::Unsynced;
using testing_support::WindowDay;

constexpr std::int64_t half_an_hour_ms = 1'800'000;

// 1: each place is taken; 7: each seventh; 0, where nothing is said: one in a scene.
long stride() {
  const char* given = std::getenv("PRILLBOOK_EVERY");
  return given ? std::max(1L, std::atol(given)) : 0;
}

// In a test run, which has to end, a few and one place in each. A long run takes all, or FIRST-LAST of them where
// PRILLBOOK_SCENES says so.
std::vector<int> scenes_looked_at() {
  if (stride() == 0) return {0, 1, 2, 3, int(WindowDay::scene_names().indexOf("summary"))};
  const char* given = std::getenv("PRILLBOOK_SCENES");
  const QStringList ends = QString(given ? given : "").split('-');
  const int first = ends.size() == 2 ? ends[0].toInt() : 0, last = ends.size() == 2 ? ends[1].toInt() : WindowDay::scenes() - 1;
  std::vector<int> scenes;
  for (int scene = first; scene <= std::min(last, WindowDay::scenes() - 1); ++scene) scenes.push_back(scene);
  return scenes;
}

class WindowOnAFailingDisk : public testing::Test {
 protected:
  testing_support::TempFolder folder;
  OwnHome home{folder};
  std::string file = folder.file("lab.prillbook");
  FailingDisk disk;

  struct Scene {
    int number = 0;
    std::string bytes;  // of the notebook before it
    WindowDay::Standing standing;
    std::vector<Accepted> before;
    long prepared = 0;  // operations before what it alone does
    long operations = 0;
  };
  static std::vector<Scene> day;

  struct Played {
    std::vector<Accepted> accepted;  // since the beginning of the day
    long prepared = 0;
    bool whole = false;
    int refusals = 0;
    QStringList silences;
    WindowDay::Standing standing;
    QString last_words;
  };

  void SetUp() override {
    QStandardPaths::setTestModeEnabled(true);
    ASSERT_TRUE(batch::notebook_new(file).ok());
    disk.stand_in();
    if (day.empty()) live_through_it();
  }
  void live_through_it() {
    Scene scene;
    const std::vector<int> looked_at = scenes_looked_at();
    for (int number = 0; number <= looked_at.back(); ++number) {
      const bool looks = std::find(looked_at.begin(), looked_at.end(), number) != looked_at.end();
      if (!looks && stride() == 0) continue;
      scene.number = number;
      scene.bytes = testing_support::file_text(file);
      disk.arm(DiskFault::none, 0);
      const Played played = play(scene);
      ASSERT_TRUE(played.whole && played.refusals == 0) << name_of(scene) << ": " << played.last_words.toStdString();
      scene.operations = disk.operations();
      scene.prepared = played.prepared;
      if (looks) day.push_back(scene);
      scene.before = played.accepted;
      scene.standing = played.standing;
    }
  }

  static std::string name_of(const Scene& scene) { return WindowDay::scene_names()[scene.number].toStdString(); }

  Played play(const Scene& scene) {
    // Whoever begins a scene sits down at the same window.
    QSettings().setValue("window/worker", "HM");
    QSettings().setValue("window/station", 0);
    SteppingClock clock = testing_support::monday_morning();
    Instant begun = clock.now();
    begun.utc_ms += scene.number * half_an_hour_ms;
    clock.set(begun);
    const auto desk = Desk::open(QString::fromStdString(file), store::Access::read_write, clock, {[] {}, [] {}}).value();
    ui::MainWindow& window = desk->window();
    WindowDay::open(window, {640, 360});
    WindowDay at_work(window, scene.standing, QString::fromStdString(folder.path()));
    Played played{scene.before, 0, false, 0, {}, {}, {}};
    at_work.on_accepted([&](const Accepted& one) { played.accepted.push_back(one); });
    at_work.on_prepared([&] { played.prepared = disk.operations(); });
    played.whole = at_work.play(scene.number);
    played.refusals = at_work.refusals();
    played.silences = at_work.silences();
    played.standing = at_work.standing();
    played.last_words = at_work.last_words();
    testing_support::window_in_hand() = nullptr;
    return played;
  }
  Played play_with(const Scene& scene, DiskFault fault, long at) {
    store::discard(file);
    testing_support::write_file(file, scene.bytes);
    disk.arm(fault, at);
    const Played played = play(scene);
    EXPECT_TRUE(played.silences.isEmpty()) << "nothing is said of " << played.silences.join(", ").toStdString();
    return played;
  }
  void expect_all_held(const Played& played) {
    const auto held = held_entries(file);
    ASSERT_TRUE(held.ok()) << held.error().detail;
    for (const Accepted& one : missing(played.accepted, *held))
      ADD_FAILURE() << "shown as accepted and not there: " << one.field << " “" << one.typed << "”";
  }

  // Every place of every scene, or one of each.
  void at_places(const std::function<void(const Scene& scene, long at)>& look) {
    for (std::size_t i = 0; i < day.size(); ++i) {
      const long operations = day[i].operations, own = operations - day[i].prepared;
      const long first = day[i].prepared + (stride() > 0 ? 1 : 1 + own * (2 * long(i) + 1) / 11);
      for (long at = first; at <= operations && !HasFailure(); at += stride() > 0 ? stride() : operations) {
        SCOPED_TRACE(fmt::format("{}, operation {} of {}", name_of(day[i]), at, operations));
        look(day[i], at);
      }
      if (stride() == 0) continue;
      fmt::print("    {}: {} operations\n", name_of(day[i]), own);
      std::fflush(stdout);
    }
  }
  long operations() const {
    long all = 0;
    for (const Scene& scene : day) all += scene.operations - scene.prepared;
    return all;
  }
};

std::vector<WindowOnAFailingDisk::Scene> WindowOnAFailingDisk::day;

TEST_F(WindowOnAFailingDisk, ShowsNothingAsAcceptedThatThePowerCutTakes) {
  int cuts = 0;
  at_places([&](const Scene& scene, long at) {
    const Played played = play_with(scene, DiskFault::power_cut, at);
    ASSERT_TRUE(disk.is_off()) << played.last_words.toStdString();
    const FailingDisk::Left left = disk.left();
    for (const Unsynced unsynced : {Unsynced::lost, Unsynced::kept, Unsynced::partly}) {
      disk.settle(left, unsynced, std::uint32_t(at) * 131);
      ASSERT_NO_FATAL_FAILURE(expect_all_held(played)) << "kind " << int(unsynced);
      ++cuts;
    }
  });
  fmt::print("  {} disk operations of a day at the window, {} power cuts\n", operations(), cuts);
}

// Four faults in turn from place to place. What was refused is done again, and the day goes on.
TEST_F(WindowOnAFailingDisk, SaysWhatWasNotWrittenAndGoesOn) {
  constexpr std::array all{DiskFault::io_error, DiskFault::io_error_after, DiskFault::full, DiskFault::full_short_write};
  int faults = 0, refused = 0, broken_off = 0;
  at_places([&](const Scene& scene, long at) {
    const DiskFault fault = all[std::size_t(at + scene.number) % all.size()];
    const Played played = play_with(scene, fault, at);
    ASSERT_NO_FATAL_FAILURE(expect_all_held(played)) << "fault " << int(fault);
    if (!played.whole)
      fmt::print("    {} ended at {}, fault {}: {}\n", name_of(scene), at, int(fault), played.last_words.toStdString());
    ++faults;
    refused += played.refusals;
    broken_off += !played.whole;
  });
  EXPECT_GT(refused, 0);
  fmt::print("  {} faults of the disk, {} entries refused, {} scenes that ended there\n", faults, refused, broken_off);
}

}  // namespace
}  // namespace prillbook::program
