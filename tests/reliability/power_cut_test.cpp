// SPDX-License-Identifier: GPL-3.0-or-later
// A lab day with the power cut, or the disk failing, at every single write, truncation, sync and deletion in turn.
// Afterwards the notebook opens, the check finds nothing, and it holds every gesture that had been accepted.
#include <fmt/format.h>
#include <gtest/gtest.h>

#include <cstdlib>
#include <filesystem>
#include <optional>
#include <string_view>

#include "core/store/backup.h"
#include "core/upkeep/check.h"
#include "tests/support/failing_vfs.h"
#include "tests/support/files.h"
#include "tests/support/lab_day.h"
#include "tests/support/notebook.h"

namespace prillbook {
namespace {

using history::Hash;
using store::Access;
using store::Connection;
using testing_support::DiskFault;
using testing_support::do_gesture;
using testing_support::FailingDisk;
using testing_support::Unsynced;

// Every seventh place by default, for a test run has to end; PRILLBOOK_EVERY=1 takes each (target reliability_long).
long stride() {
  const char* given = std::getenv("PRILLBOOK_EVERY");
  return given && std::string_view(given) == "1" ? 1 : 7;
}

class LabDayTest : public testing::Test {
 protected:
  testing_support::TempFolder folder;
  std::string path = folder.file("lab.prillbook");
  std::string empty;  // the bytes of a notebook without entries
  std::vector<testing_support::Gesture> day = testing_support::lab_day();
  std::vector<Hash> heads;  // after 0, 1, 2 … gestures
  FailingDisk disk;
  long operations = 0;      // of a whole day
  std::vector<long> lasts;  // of each gesture its last operation, in which its journal goes

  void SetUp() override {
    ASSERT_TRUE(Connection::create(path).ok());
    empty = testing_support::file_text(path);
    disk.arm(DiskFault::none, 0);
    const Day done = begin();
    heads.push_back(done.journal->head());
    for (std::size_t i = 0; i < day.size(); ++i) {
      const auto outcome = do_gesture(*done.journal, *done.clock, day, i);
      ASSERT_TRUE(outcome.ok()) << i << " " << outcome.error().detail;
      heads.push_back(done.journal->head());
      lasts.push_back(disk.operations());
    }
    operations = disk.operations();
  }

  struct Day {
    std::unique_ptr<SteppingClock> clock;
    std::unique_ptr<Connection> connection;
    std::unique_ptr<history::Journal> journal;
    Error refusal{};
  };
  Day begin() {
    Day made;
    made.clock = std::make_unique<SteppingClock>(Instant{});
    made.connection = Connection::open(path, Access::read_write, disk.vfs()).value();
    made.journal = history::Journal::open(*made.connection, *made.clock).value();
    return made;
  }
  void fresh_notebook() {
    store::discard(path);
    testing_support::write_file(path, empty);
  }
  // Works until the first gesture that is not accepted; gives the number of those that were.
  std::size_t work(Day& at_work, std::size_t from = 0) {
    for (std::size_t number = from; number < day.size(); ++number)
      if (const auto outcome = do_gesture(*at_work.journal, *at_work.clock, day, number); !outcome.ok()) {
        at_work.refusal = outcome.error();
        return number;
      }
    return day.size();
  }
  // Opens the notebook for writing, as the next start of the program would, and checks it.
  std::optional<Hash> head_found() {
    const auto connection = Connection::open(path, Access::read_write, disk.vfs());
    if (!connection) {
      ADD_FAILURE() << connection.error().detail;
      return std::nullopt;
    }
    const auto report = upkeep::check_notebook(**connection);
    if (!report || !report->sound()) {
      ADD_FAILURE() << (report ? report->faults[0].where + " " + report->faults[0].what : report.error().detail);
      return std::nullopt;
    }
    return report->head;
  }
  // Whether the notebook holds exactly `accepted` gestures, or one more: the one that was being written.
  void expect_holds(std::size_t accepted, int& with_the_next) {
    const auto head = head_found();
    ASSERT_TRUE(head);
    const bool next = accepted < day.size() && *head == heads[accepted + 1];
    with_the_next += next;
    ASSERT_TRUE(next || *head == heads[accepted]) << accepted << " gestures had been accepted";
  }
};

TEST_F(LabDayTest, PowerCutAtEveryOperation) {
  int cuts = 0, with_the_next = 0;
  for (long at = 1; at <= operations; at += stride())
    for (const Unsynced unsynced : {Unsynced::lost, Unsynced::kept, Unsynced::partly}) {
      fresh_notebook();
      disk.arm(DiskFault::power_cut, at);
      std::size_t accepted = 0;
      {
        // Opening writes nothing, so the cut comes in a gesture.
        Day at_work = begin();
        accepted = work(at_work);
      }
      ASSERT_TRUE(disk.is_off()) << at;
      disk.settle(unsynced, static_cast<std::uint32_t>(at) * 131);
      ASSERT_NO_FATAL_FAILURE(expect_holds(accepted, with_the_next)) << "cut at " << at << ", kind " << int(unsynced);
      ++cuts;
    }
  EXPECT_GT(with_the_next, 0) << "somewhere between the commit and its answer";
  fmt::print("  {} gestures, {} disk operations, {} power cuts; in {} of them the gesture in hand was found written\n",
             day.size(), operations, cuts, with_the_next);
}

TEST_F(LabDayTest, EveryOperationFailsOnce) {
  int faults = 0, refused = 0, with_the_next = 0;
  for (const DiskFault fault : {DiskFault::io_error, DiskFault::io_error_after})
    for (long at = 1; at <= operations; at += stride()) {
      fresh_notebook();
      disk.arm(fault, at);
      std::size_t accepted = 0;
      {
        Day at_work = begin();
        accepted = work(at_work);
        if (accepted < day.size()) {
          ++refused;
          const Hash& head = at_work.journal->head();
          const bool written = head == heads[accepted + 1];
          ASSERT_TRUE(written || head == heads[accepted]) << "the journal knows where the file is";
        }
      }
      disk.settle(Unsynced::kept);
      ASSERT_NO_FATAL_FAILURE(expect_holds(accepted, with_the_next)) << "fault " << int(fault) << " at " << at;
      ++faults;
    }
  EXPECT_GT(refused, 0);
  EXPECT_EQ(with_the_next, 0) << "what was written is not refused";
  fmt::print("  {} faults of the disk, {} gestures refused, {} of these found written\n", faults, refused, with_the_next);
}

// A disk that goes on reporting faults: a gesture may stand in the file, and nobody can say whether a power cut leaves it.
TEST_F(LabDayTest, AGestureThatIsWrittenAndNotSureIsToldApart) {
  for (std::size_t accepted = 0; accepted < day.size(); accepted += 5)
    for (const bool stands : {true, false}) {
      fresh_notebook();
      disk.arm_from(DiskFault::io_error_after, lasts[accepted] - (stands ? 0 : 1));
      Day at_work = begin();
      ASSERT_EQ(work(at_work), accepted);
      EXPECT_EQ(at_work.refusal.field == "commit_done", stands) << accepted;
      at_work = {};
      disk.settle(Unsynced::kept);
      int found = 0;
      ASSERT_NO_FATAL_FAILURE(expect_holds(accepted, found));
      EXPECT_EQ(found == 1, stands) << accepted;
    }
}

// After one fault the same window works on: the refused gesture is done again and the day ends as it should.
TEST_F(LabDayTest, WorkGoesOnAfterAFault) {
  int repeated = 0;
  for (const DiskFault fault : {DiskFault::full, DiskFault::full_short_write})
    for (long at = 1; at <= operations; at += stride()) {
      fresh_notebook();
      disk.arm(fault, at);
      Day at_work = begin();
      std::size_t accepted = work(at_work);
      // Taking back is known to one session only; past it there is nothing to repeat.
      if (accepted < day.size()) {
        ++repeated;
        if (at_work.journal->head() == heads[accepted + 1]) ++accepted;
        accepted = work(at_work, accepted);
      }
      ASSERT_EQ(accepted, day.size()) << "fault " << int(fault) << " at " << at;
      const auto report = upkeep::check_notebook(*at_work.connection);
      ASSERT_TRUE(report.ok() && report->sound() && report->head == heads.back()) << at;
    }
  EXPECT_GT(repeated, 0);
  fmt::print("  {} gestures done again after a fault\n", repeated);
}

TEST_F(LabDayTest, FullDiskLeavesTheNotebookReadable) {
  fresh_notebook();
  disk.arm_from(DiskFault::full, operations / 2);
  std::size_t accepted = 0;
  {
    Day at_work = begin();
    accepted = work(at_work);
    ASSERT_LT(accepted, day.size());
    const auto again = do_gesture(*at_work.journal, *at_work.clock, day, accepted);
    EXPECT_EQ(again.error().code, ErrorCode::disk_full);
    const auto report = upkeep::check_notebook(*at_work.connection);
    ASSERT_TRUE(report.ok()) << report.error().detail;
    EXPECT_TRUE(report->sound());
    EXPECT_EQ(report->head, heads[accepted]);
  }
  EXPECT_EQ(head_found(), heads[accepted]);
}

// The model of the disk itself: with less syncing than a notebook has, accepted gestures are lost.
TEST_F(LabDayTest, ModelSeesAMissingSync) {
  int lost = 0;
  for (long at = 1; at <= operations && lost == 0; ++at) {
    fresh_notebook();
    disk.arm(DiskFault::power_cut, at);
    std::size_t accepted = 0;
    {
      Day at_work = begin();
      if (!at_work.connection->run_derived("PRAGMA synchronous = FULL", {})) continue;
      accepted = work(at_work);
    }
    if (!disk.is_off()) continue;
    disk.settle(Unsynced::lost);
    const auto head = head_found();
    lost += head && *head != heads[accepted] && (accepted == day.size() || *head != heads[accepted + 1]);
  }
  EXPECT_GT(lost, 0) << "without the sync of the folder a deleted journal comes back and undoes an entry";
}

}  // namespace
}  // namespace prillbook
