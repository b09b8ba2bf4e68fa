// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/versions/versions.h"

#include <fmt/format.h>
#include <gmock/gmock.h>

#include <chrono>
#include <cstdlib>

#include "core/history/fields.h"
#include "core/readings/reading.h"
#include "core/versions/names.h"
#include "tests/support/notebook.h"

namespace prillbook::versions {
namespace {

namespace fields = history::fields;
using history::ChangeSet;
using history::Entity;
using testing::ElementsAre;

std::string grams(std::string_view typed) { return readings::encode(readings::parse(typed, {}).value()); }

class VersionsTest : public testing::Test {
 protected:
  testing_support::MemoryNotebook notebook;
  RecordId sample = 0, portion = 0, other = 0;

  VersionsTest() {
    write("receive", [&](ChangeSet& set) -> Result<void> {
      PRILLBOOK_ASSIGN(const RecordId client, set.make(Entity::client, {{fields::client::name, "Larch Adit Syndicate"}}));
      PRILLBOOK_ASSIGN(const RecordId consignment,
                       set.make(Entity::consignment, {{fields::consignment::number, "C26-001"},
                                                      {fields::consignment::client, client},
                                                      {fields::consignment::arrived, "2026-05-04T09:00:00.000+02:00"}}));
      PRILLBOOK_ASSIGN(sample, set.make(Entity::sample, {{fields::sample::number, "26-0001"},
                                                         {fields::sample::consignment, consignment},
                                                         {fields::sample::mark, "N drive"},
                                                         {fields::sample::mass_received, grams("812,5 g")}}));
      PRILLBOOK_ASSIGN(other, set.make(Entity::sample, {{fields::sample::number, "26-0002"},
                                                        {fields::sample::consignment, consignment},
                                                        {fields::sample::mark, "S drive"}}));
      return {};
    });
    write("cut", [&](ChangeSet& set) -> Result<void> {
      PRILLBOOK_ASSIGN(portion, set.make(Entity::portion, {{fields::portion::sample, sample},
                                                           {fields::portion::number, 2},
                                                           {fields::portion::purpose, "pan"}}));
      return {};
    });
    notebook.journal->set_author("JK");
    write("mass received", [&](ChangeSet& set) {
      set.because("read again");
      return set.set(fields::sample::mass_received, sample, grams("813 g"));
    });
  }
  void write(const char* gesture, const std::function<Result<void>(ChangeSet&)>& body) {
    const auto done = notebook.journal->record(gesture, body);
    ASSERT_TRUE(done.ok()) << done.error().detail;
  }
  std::vector<std::string> standings(const std::vector<Version>& versions) {
    std::vector<std::string> names;
    for (const Version& version : versions) names.push_back(standing_name(version));
    return names;
  }
  std::vector<std::int64_t> ids(const JournalFilter& filter) {
    JournalReader reader(*notebook.connection, filter);
    std::vector<std::int64_t> found;
    for (bool end = false; !end;) {
      const auto page = reader.next(2, 3);
      EXPECT_TRUE(page.ok());
      if (!page.ok()) break;
      for (const Version& version : page->versions) found.push_back(version.row.id);
      end = page->end;
    }
    return found;
  }
};

TEST_F(VersionsTest, RecordsAreKnownByTheirNumbers) {
  store::Connection& connection = *notebook.connection;
  EXPECT_EQ(record_name(connection, Entity::sample, sample), "26-0001");
  EXPECT_EQ(record_name(connection, Entity::portion, portion), "26-0001/2");
  EXPECT_EQ(record_name(connection, Entity::client, 1), "Larch Adit Syndicate");
  EXPECT_EQ(record_name(connection, Entity::sample, 999), "");
  EXPECT_EQ(kind_name(history::spec_of(Entity::pan_test)), "pan test");
  EXPECT_EQ(field_name(fields::portion::sample), "sample");
  EXPECT_EQ(cell_text(connection, fields::sample::mass_received, grams("812,5 g")), "812,5 g");
  EXPECT_EQ(cell_text(connection, fields::portion::sample, sample), "26-0001");
  EXPECT_EQ(cell_text(connection, fields::sample::struck, std::int64_t{1}), "yes");
}

TEST_F(VersionsTest, OfARecordWithOldAndNew) {
  const auto versions = versions_of(*notebook.connection, {{Entity::sample, sample}});
  ASSERT_TRUE(versions.ok());
  ASSERT_EQ(versions->size(), 2u);
  EXPECT_TRUE(versions->front().made());
  EXPECT_THAT(words_of(*notebook.connection, versions->front().row).new_text, testing::HasSubstr("mark N drive"));
  const Words words = words_of(*notebook.connection, versions->back().row);
  EXPECT_EQ(words.field, "mass received");
  EXPECT_EQ(words.old_text, "812,5 g");
  EXPECT_EQ(words.new_text, "813 g");
  EXPECT_EQ(versions->back().row.who, "JK");
  EXPECT_EQ(versions->back().row.why, "read again");
}

TEST_F(VersionsTest, TakenBackAndPutBackAreRowsOfTheirOwn) {
  ASSERT_TRUE(notebook.journal->undo().ok());
  EXPECT_THAT(standings(versions_of(*notebook.connection, {{Entity::sample, sample}}).value()),
              ElementsAre("", "taken back", "takes back"));
  ASSERT_TRUE(notebook.journal->redo().ok());
  EXPECT_THAT(standings(versions_of(*notebook.connection, {{Entity::sample, sample}}).value()),
              ElementsAre("", "", "taken back", "puts back"));
  const auto page = JournalReader(*notebook.connection, {}).next(100);
  EXPECT_THAT(standings(page->versions), ElementsAre("puts back", "taken back", "", "", "", "", "", ""));
}

TEST_F(VersionsTest, OfASampleWithAllThatBelongsToIt) {
  write("cut", [&](ChangeSet& set) -> Result<void> {
    PRILLBOOK_TRY(set.make(Entity::pan_test, {{fields::pan_test::portion, portion}}));
    return {};
  });
  ASSERT_TRUE(notebook.journal->undo().ok());
  const auto records = records_of_sample(*notebook.connection, sample);
  ASSERT_TRUE(records.ok()) << records.error().detail;
  EXPECT_THAT(*records,
              ElementsAre(RecordKey{Entity::sample, sample}, RecordKey{Entity::portion, portion}, RecordKey{Entity::pan_test, 1}))
      << "also what is struck out";
}

TEST_F(VersionsTest, JournalByPersonKindTimeAndWords) {
  EXPECT_THAT(ids({}), ElementsAre(6, 5, 4, 3, 2, 1));
  EXPECT_THAT(ids({.who = "JK"}), ElementsAre(6));
  EXPECT_THAT(ids({.kind = Entity::sample}), ElementsAre(6, 4, 3));
  EXPECT_THAT(ids({.words = "READ again"}), ElementsAre(6));
  EXPECT_THAT(ids({.words = "812,5"}), ElementsAre(6, 3));
  EXPECT_THAT(ids({.words = "26-0002"}), ElementsAre(4));
  EXPECT_THAT(ids({.words = "typed"}), ElementsAre()) << "how a figure is stored is no word";
  EXPECT_THAT(ids({.words = "100%"}), ElementsAre());
  const auto rows = versions_of(*notebook.connection, {{Entity::portion, portion}}).value();
  const std::int64_t cut = rows.front().row.when.utc_ms;
  EXPECT_THAT(ids({.from_ms = cut}), ElementsAre(6, 5));
  EXPECT_THAT(ids({.until_ms = cut}), ElementsAre(4, 3, 2, 1));
  EXPECT_THAT(ids({.who = "JK", .kind = Entity::portion}), ElementsAre());
}

// PRILLBOOK_ENTRIES sets how many; the figures are printed.
TEST_F(VersionsTest, JournalOfManyEntriesOpensAtOnce) {
  const char* wanted = std::getenv("PRILLBOOK_ENTRIES");
  const std::string last = wanted ? wanted : "60000";
  ASSERT_TRUE(
      notebook.connection
          ->run_derived("INSERT INTO history (id, change_set, gesture, entity, record, field, old, new, who, utc_ms, "
                        "offset_minutes, hash) WITH RECURSIVE n(i) AS (SELECT 7 UNION ALL SELECT i + 1 FROM n WHERE i < " +
                            last +
                            ") SELECT i, i, 'remarks', 6, 1, 14, NULL, 'word ' || i, 'HM', 1777879800000, 120, "
                            "zeroblob(32) FROM n",
                        {})
          .ok());
  const auto ms_since = [](std::chrono::steady_clock::time_point begun) {
    return std::chrono::duration<double, std::milli>(std::chrono::steady_clock::now() - begun).count();
  };
  JournalReader reader(*notebook.connection, {});
  auto begun = std::chrono::steady_clock::now();
  const auto page = reader.next(100);
  const double first_page = ms_since(begun);
  ASSERT_TRUE(page.ok());
  EXPECT_EQ(page->versions.size(), 100u);
  EXPECT_EQ(page->looked_at, 100) << "it looks at what it shows and no further";
  EXPECT_LT(first_page, 200);
  JournalReader rare(*notebook.connection, {.who = "JK", .words = "read again"});
  EXPECT_EQ(rare.next(100)->looked_at, 20'000) << "a filter that rarely fits gives the window back in between";
  begun = std::chrono::steady_clock::now();
  std::size_t fits = 0;
  for (bool end = false; !end;) {
    const auto step = rare.next(100);
    ASSERT_TRUE(step.ok());
    fits += step->versions.size();
    end = step->end;
  }
  EXPECT_EQ(fits, 1u) << "and finds the one that fits at the far end";
  fmt::print("  {} entries: first page {:.1f} ms, looked through in {:.0f} ms\n", last, first_page, ms_since(begun));
}

}  // namespace
}  // namespace prillbook::versions
