// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/upkeep/check.h"

#include <gtest/gtest.h>

#include "core/history/fields.h"
#include "core/history/rows.h"
#include "core/readings/reading.h"
#include "tests/support/notebook.h"

namespace prillbook::upkeep {
namespace {

namespace fields = history::fields;
using history::ChangeSet;
using history::Entity;
using testing_support::MemoryNotebook;

std::string grams(std::string_view typed) { return readings::encode(readings::parse(typed, {}).value()); }

class CheckTest : public testing::Test {
 protected:
  MemoryNotebook notebook;

  CheckTest() {
    must(notebook.journal->record("receive", [&](ChangeSet& set) -> Result<void> {
      PRILLBOOK_ASSIGN(const RecordId client, set.make(Entity::client, {{fields::client::name, "Larch Adit Syndicate"}}));
      PRILLBOOK_ASSIGN(const RecordId consignment,
                       set.make(Entity::consignment, {{fields::consignment::number, "C26-001"},
                                                      {fields::consignment::client, client},
                                                      {fields::consignment::arrived, "2026-05-04T09:00:00.000+02:00"}}));
      for (const char* number : {"26-0001", "26-0002"})
        PRILLBOOK_TRY(set.make(Entity::sample, {{fields::sample::number, number},
                                                {fields::sample::consignment, consignment},
                                                {fields::sample::mark, "A"},
                                                {fields::sample::kind, "grab"},
                                                {fields::sample::mass_received, grams("812,5 g")}}));
      return {};
    }));
    must(notebook.journal->record("change",
                                  [&](ChangeSet& set) { return set.set(fields::sample::mass_received, 2, grams("813 g")); }));
  }
  static void must(const Result<void>& outcome) { ASSERT_TRUE(outcome.ok()) << outcome.error().detail; }
  // Something that no program of ours would do to the file.
  void tamper(const std::string& sql) { must(notebook.connection->run_derived(sql, {})); }
  void tamper_with_history(const std::string& sql) {
    tamper("DROP TRIGGER history_is_not_rewritten");
    tamper("DROP TRIGGER history_is_not_erased");
    tamper(sql);
    const auto model = store::Connection::in_memory().value();
    std::vector<std::string> triggers;
    must(model->rows_derived("SELECT sql FROM sqlite_schema WHERE type = 'trigger' AND tbl_name = 'history'", {},
                             [&](const store::Row& row) {
                               triggers.push_back(row.text(0));
                               return true;
                             }));
    for (const std::string& text : triggers) tamper(text);
  }
  std::vector<std::string> faults() {
    const auto report = check_notebook(*notebook.connection);
    EXPECT_TRUE(report.ok()) << (report.ok() ? "" : report.error().detail);
    std::vector<std::string> told;
    if (report.ok())
      for (const store::Fault& fault : report->faults) told.push_back(fault.where + ": " + fault.what);
    return told;
  }
};

TEST_F(CheckTest, SoundNotebook) {
  const auto report = check_notebook(*notebook.connection);
  ASSERT_TRUE(report.ok()) << report.error().detail;
  EXPECT_TRUE(report->sound());
  EXPECT_EQ(report->version, store::Connection::newest_version());
  EXPECT_EQ(report->history_rows, 5);
  EXPECT_EQ(report->records, 4);
  EXPECT_EQ(report->head, notebook.journal->head());
}

TEST_F(CheckTest, EmptyNotebookIsSound) {
  const MemoryNotebook empty;
  EXPECT_TRUE(check_notebook(*empty.connection)->sound());
}

TEST_F(CheckTest, ChangedCell) {
  tamper("UPDATE sample SET mark = 'B' WHERE id = 1");
  EXPECT_EQ(faults(), (std::vector<std::string>{"sample 1.mark: holds 'B', its history says 'A'",
                                                "search 1: does not hold the words of its sample"}));
}

TEST_F(CheckTest, WhatWaitsIsNotWhatTheRecordsSay) {
  tamper("INSERT INTO bead_to_weigh VALUES (7, 'bead')");
  tamper("INSERT INTO portion_to_test VALUES (8, 'pan')");
  tamper("UPDATE sample_to_cut SET cut = 1 WHERE sample_id = 1");
  tamper("DELETE FROM sample_to_cut WHERE sample_id = 2");
  EXPECT_EQ(faults(),
            (std::vector<std::string>{
                "bead_to_weigh 7: does not say what the records say", "portion_to_test 8: does not say what the records say",
                "sample_to_cut 1: does not say what the records say", "sample_to_cut 2: does not say what the records say"}));
}

TEST_F(CheckTest, RowWithoutHistory) {
  tamper("INSERT INTO client (id, name) VALUES (7, 'Nobody')");
  EXPECT_EQ(faults(), (std::vector<std::string>{"client 7: has no history"}));
}

TEST_F(CheckTest, HistoryWithoutRow) {
  tamper("DELETE FROM sample WHERE id = 2");
  EXPECT_EQ(faults(), (std::vector<std::string>{"sample 2: stands in the history but not in its table",
                                                "search 2: holds words of a record that is not there",
                                                "sample_tested 2: does not say what the records say",
                                                "sample_to_cut 2: does not say what the records say"}));
}

TEST_F(CheckTest, ChangedHistory) {
  tamper_with_history("UPDATE history SET who = 'XX' WHERE id = 3");
  EXPECT_EQ(faults(), (std::vector<std::string>{"history 3: its hash does not fit the row and the one before it"}));
}

TEST_F(CheckTest, LostHistoryRow) {
  tamper_with_history("DELETE FROM history WHERE id = 4");
  EXPECT_THAT(faults(), testing::IsSupersetOf({"history 5: follows row 3", "history 5: changes sample 2 before it was made"}));
}

TEST_F(CheckTest, BlobInPlaceOfTextInTheHistory) {
  tamper_with_history("UPDATE history SET new = CAST(new AS BLOB) WHERE id = 1");
  EXPECT_EQ(faults(), (std::vector<std::string>{"history 1: holds a value of a type that is never written"}));
}

TEST_F(CheckTest, UnknownCodes) {
  tamper_with_history("UPDATE history SET entity = 99 WHERE id = 1");
  EXPECT_THAT(faults(), testing::Contains("history 1: tells of a kind of record with the code 99, which is not known"));
}

TEST_F(CheckTest, SchemaThatIsNotOurs) {
  tamper("CREATE TABLE extra (id INTEGER PRIMARY KEY)");
  tamper("DROP INDEX sample_mark");
  EXPECT_EQ(faults(),
            (std::vector<std::string>{"schema: index sample_mark is missing", "schema: table extra does not belong there"}));
}

TEST_F(CheckTest, WrongApplicationAndVersion) {
  tamper("PRAGMA application_id = 5");
  EXPECT_EQ(faults(), (std::vector<std::string>{"file: is not marked as a notebook"}));
  tamper("PRAGMA user_version = 9999");
  EXPECT_EQ(check_notebook(*notebook.connection).error().code, ErrorCode::newer_version);
}

TEST_F(CheckTest, ReferenceToNothing) {
  tamper("PRAGMA foreign_keys = OFF");
  tamper("UPDATE sample SET consignment_id = 44 WHERE id = 1");
  EXPECT_THAT(faults(), testing::Contains("sample 1: refers to a consignment that is not there"));
}

// The journal takes any JSON for a reading; what it says is looked at here.
TEST_F(CheckTest, ReadingThatDoesNotSayWhatWasTyped) {
  must(notebook.journal->record("change", [&](ChangeSet& set) {
    return set.set(fields::sample::mass_received, 1, R"({"typed":"812.5 g","unit":"g","value":81.25})");
  }));
  const auto told = faults();
  ASSERT_EQ(told.size(), 1u);
  EXPECT_THAT(told[0], testing::AllOf(testing::StartsWith("sample 1.mass_received: "), testing::HasSubstr("what was typed")));
}

TEST_F(CheckTest, CanBeStopped) {
  Cancellation cancellation;
  cancellation.request();
  CheckControls controls;
  controls.cancellation = &cancellation;
  must(notebook.journal->record("add clients", [](ChangeSet& set) -> Result<void> {
    for (int i = 0; i < 5000; ++i) PRILLBOOK_TRY(set.make(Entity::client, {{fields::client::name, "N"}}));
    return {};
  }));
  EXPECT_EQ(check_notebook(*notebook.connection, controls).error().code, ErrorCode::cancelled);
}

TEST_F(CheckTest, FaultsHaveALimit) {
  for (int i = 10; i < 1000; ++i) tamper("INSERT INTO client (id, name) VALUES (" + std::to_string(i) + ", 'N')");
  EXPECT_EQ(faults().size(), store::FaultList::most);
}

TEST_F(CheckTest, HistoryOfOneRecord) {
  const auto rows = history::record_history(*notebook.connection, Entity::sample, 2);
  ASSERT_TRUE(rows.ok());
  ASSERT_EQ(rows->size(), 2u);
  EXPECT_EQ((*rows)[0].gesture, "receive");
  EXPECT_EQ((*rows)[1].field, fields::sample::mass_received.code);
  EXPECT_EQ((*rows)[1].new_value, store::Value(grams("813 g")));
  EXPECT_EQ((*rows)[1].hash, notebook.journal->head());
}

}  // namespace
}  // namespace prillbook::upkeep
