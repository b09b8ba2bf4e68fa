// SPDX-License-Identifier: GPL-3.0-or-later
// A backup on a disk that fails: the old copy stays as it was.
#include "core/store/backup.h"

#include <gtest/gtest.h>

#include <filesystem>

#include "core/upkeep/check.h"
#include "core/upkeep/copies.h"
#include "core/upkeep/keep.h"
#include "tests/support/failing_vfs.h"
#include "tests/support/files.h"
#include "tests/support/lab_day.h"
#include "tests/support/notebook.h"

namespace prillbook {
namespace {

using testing_support::DiskFault;

TEST(BackupOnABadDisk, LeavesTheOldCopy) {
  testing_support::FileNotebook notebook;
  const std::string copy = notebook.folder.file("copy.prillbook");
  ASSERT_TRUE(upkeep::back_up(*notebook.connection, copy).ok());
  const std::string before = testing_support::file_text(copy);
  const auto day = testing_support::lab_day();
  for (std::size_t i = 0; i < day.size(); ++i)
    ASSERT_TRUE(testing_support::do_gesture(*notebook.journal, notebook.clock, day, i).ok());

  testing_support::FailingDisk disk;
  store::BackupOptions options;
  options.replace = true;
  options.vfs = disk.vfs();
  int refused = 0;
  for (const DiskFault fault : {DiskFault::full, DiskFault::io_error, DiskFault::full_short_write})
    for (long at = 1;; ++at) {
      disk.arm_from(fault, at);
      const auto done = upkeep::back_up(*notebook.connection, copy, options);
      if (done.ok()) {
        ASSERT_EQ(upkeep::check_notebook(copy)->head, notebook.journal->head());
        testing_support::write_file(copy, before);
        break;
      }
      ++refused;
      EXPECT_EQ(done.error().code, ErrorCode::disk_full) << at << " " << done.error().detail;
      ASSERT_TRUE(testing_support::file_text(copy) == before) << at;
      ASSERT_FALSE(std::filesystem::exists(copy + ".part")) << at;
    }
  EXPECT_GT(refused, 20);
}

// The copies that a notebook takes of itself: a full disk leaves the older ones as they were and no half copy.
TEST(CopiesOnABadDisk, LeaveTheOldOnes) {
  testing_support::FileNotebook notebook;
  const auto day = testing_support::lab_day();
  const auto take = [&](const char* when, const std::string& vfs) {
    store::BackupOptions options;
    options.vfs = vfs;
    return upkeep::take_copy(notebook.path, {}, *parse_iso(when), options);
  };
  ASSERT_TRUE(testing_support::do_gesture(*notebook.journal, notebook.clock, day, 0).ok());
  const auto first = take("2026-05-04T09:00+02:00", "");
  ASSERT_TRUE(first.ok() && first->path);
  const std::string before = testing_support::file_text(*first->path);
  for (std::size_t i = 1; i < day.size(); ++i)
    ASSERT_TRUE(testing_support::do_gesture(*notebook.journal, notebook.clock, day, i).ok());
  testing_support::FailingDisk disk;
  const std::string place = upkeep::usual_copy_place(notebook.path);
  int refused = 0;
  for (const DiskFault fault : {DiskFault::full, DiskFault::io_error, DiskFault::full_short_write})
    for (long at = 1;; at += 3) {
      disk.arm_from(fault, at);
      const auto taken = take("2026-05-04T10:00+02:00", disk.vfs());
      ASSERT_TRUE(testing_support::file_text(*first->path) == before) << at;
      const auto copies = upkeep::copies_in(place, notebook.path);
      if (taken.ok()) {
        ASSERT_EQ(copies.size(), 2u);
        ASSERT_EQ(upkeep::check_notebook(*taken->path)->head, notebook.journal->head());
        store::discard(*taken->path);
        break;
      }
      ++refused;
      EXPECT_EQ(taken.error().code, ErrorCode::disk_full) << at << " " << taken.error().detail;
      ASSERT_EQ(std::distance(std::filesystem::directory_iterator(place), {}), 1) << at;
    }
  EXPECT_GT(refused, 20);
}

}  // namespace
}  // namespace prillbook
