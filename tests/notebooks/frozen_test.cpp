// SPDX-License-Identifier: GPL-3.0-or-later
// One notebook of every schema there ever was, with its dump. They are never made anew: a program that can no longer
// read them can no longer read the notebooks that labs have.
#include <fmt/format.h>
#include <gtest/gtest.h>

#include <filesystem>

#include "core/exchange/notebook_dump.h"
#include "core/history/journal.h"
#include "core/history/record.h"
#include "core/upkeep/check.h"
#include "core/upkeep/keep.h"
#include "tests/support/files.h"
#include "tests/support/generator.h"
#include "tests/support/notebook.h"

namespace prillbook {
namespace {

class FrozenNotebook : public testing::TestWithParam<int> {
 protected:
  testing_support::TempFolder folder;
  std::string path = folder.file("lab.prillbook");
  std::string frozen_dump = testing_support::file_text(source("json"));

  FrozenNotebook() { std::filesystem::copy_file(source("prillbook"), path); }
  static std::string source(const char* ending) {
    return fmt::format("{}/tests/notebooks/v{}.{}", PRILLBOOK_SOURCE_DIR, GetParam(), ending);
  }
};

TEST_P(FrozenNotebook, IsSoundAndSaysWhatItSaid) {
  const auto report = upkeep::check_notebook(path);
  ASSERT_TRUE(report.ok()) << report.error().detail;
  EXPECT_TRUE(report->sound()) << report->faults[0].where << " " << report->faults[0].what;
  EXPECT_EQ(report->version, GetParam());
  const auto connection = store::Connection::open(path, store::Access::read_only).value();
  EXPECT_TRUE(exchange::dump_notebook(*connection).value() == frozen_dump);
}

TEST_P(FrozenNotebook, ComesBackFromItsDump) {
  const std::string restored = folder.file("restored.prillbook");
  const auto outcome = exchange::restore_notebook(frozen_dump, restored);
  ASSERT_TRUE(outcome.ok()) << outcome.error().detail;
  const auto connection = store::Connection::open(restored, store::Access::read_only).value();
  EXPECT_TRUE(exchange::dump_notebook(*connection).value() == frozen_dump);
}

// Reading an older notebook leaves it as it is, and shows everything as the newest schema holds it.
TEST_P(FrozenNotebook, IsReadAsItIs) {
  const std::string bytes = testing_support::file_text(path);
  {
    const auto connection = store::Connection::open_to_read(path);
    ASSERT_TRUE(connection.ok()) << connection.error().detail;
    EXPECT_EQ((*connection)->version().value(), store::Connection::newest_version());
    for (const history::EntitySpec& entity : history::catalogue())
      EXPECT_TRUE(history::load_all(**connection, entity.entity).ok()) << entity.table;
    EXPECT_EQ(history::head_of(**connection).value(), upkeep::check_notebook(path)->head);
    store::Connection& opened = **connection;
    EXPECT_FALSE(opened.run_derived("DELETE FROM sample", {}).ok()) << "for reading only";
  }
  EXPECT_TRUE(testing_support::file_text(path) == bytes);
  EXPECT_EQ(std::distance(std::filesystem::directory_iterator(folder.path()), {}), 1) << "nothing is left beside it";
}

// The backup is made where there is something to migrate, holds the old schema, and the migrated notebook is sound.
TEST_P(FrozenNotebook, Migrates) {
  const auto before = upkeep::check_notebook(path)->head;
  const auto opened = upkeep::open_migrated(path);
  ASSERT_TRUE(opened.ok()) << opened.error().detail;
  const bool is_older = GetParam() < store::Connection::newest_version();
  ASSERT_EQ(opened->backup.has_value(), is_older);
  if (is_older) {
    const auto backup = upkeep::check_notebook(*opened->backup);
    ASSERT_TRUE(backup.ok() && backup->sound());
    EXPECT_EQ(backup->version, GetParam());
    EXPECT_EQ(backup->head, before);
  }
  const auto report = upkeep::check_notebook(*opened->connection);
  ASSERT_TRUE(report.ok() && report->sound());
  EXPECT_EQ(report->version, store::Connection::newest_version());
}

// Those between were in no lab's hands. The ninth and eleventh were written on pages of 512 bytes, to be small: that is no part
// of a schema.
INSTANTIATE_TEST_SUITE_P(EverySchema, FrozenNotebook, testing::Values(1, 2, 9, 11));

TEST(GeneratedNotebook, IsSoundAndTheSameForTheSameSeed) {
  std::string first;
  for (int round = 0; round < 2; ++round) {
    testing_support::MemoryNotebook notebook;
    testing_support::GeneratorOptions options;
    options.samples = 150;
    options.seed = 9;
    options.consignments_a_gesture = 3;
    ASSERT_TRUE(testing_support::generate(*notebook.journal, notebook.clock, options).ok());
    const auto report = upkeep::check_notebook(*notebook.connection);
    ASSERT_TRUE(report.ok() && report->sound());
    EXPECT_GT(report->records, 1000);
    const std::string dump = exchange::dump_notebook(*notebook.connection).value();
    EXPECT_TRUE(first.empty() || first == dump);
    first = dump;
  }
}

}  // namespace
}  // namespace prillbook
