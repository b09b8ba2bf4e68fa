// SPDX-License-Identifier: GPL-3.0-or-later
// The tables of what waits against the records they follow from, whatever is entered, struck out and taken back.
#include <gmock/gmock.h>
#include <rapidcheck/gtest.h>

#include "core/history/fields.h"
#include "core/readings/reading.h"
#include "core/upkeep/statements.h"
#include "tests/support/notebook.h"

namespace prillbook::upkeep {
namespace {

namespace fields = history::fields;
using history::ChangeSet;
using history::Entity;
using history::Field;
using history::Value;

// Two samples; of the first a portion to pan, one to fuse and one to sieve, each with its test, a bead of pan and fire, both
// weighed.
struct WhatWaits : testing::Test {
  testing_support::MemoryNotebook notebook;

  WhatWaits() {
    const auto made = notebook.journal->record("day", [&](ChangeSet& set) -> Result<void> {
      PRILLBOOK_TRY(set.make(Entity::client, {{fields::client::name, "Larch Adit Syndicate"}}));
      PRILLBOOK_TRY(set.make(Entity::consignment, {{fields::consignment::number, "C1"},
                                                   {fields::consignment::client, RecordId{1}},
                                                   {fields::consignment::arrived, "2026-05-04T09:00:00.000+02:00"}}));
      for (const char* number : {"1", "2"})
        PRILLBOOK_TRY(set.make(
            Entity::sample,
            {{fields::sample::number, number}, {fields::sample::consignment, RecordId{1}}, {fields::sample::mark, "A"}}));
      std::int64_t place = 0;
      for (const char* purpose : {"pan", "fire", "sieve", "split"})
        PRILLBOOK_TRY(set.make(
            Entity::portion,
            {{fields::portion::sample, RecordId{1}}, {fields::portion::number, ++place}, {fields::portion::purpose, purpose}}));
      PRILLBOOK_TRY(set.make(Entity::pan_test, {{fields::pan_test::portion, RecordId{1}}}));
      PRILLBOOK_TRY(set.make(Entity::charge, {{fields::charge::portion, RecordId{2}}}));
      PRILLBOOK_TRY(set.make(Entity::sieve_analysis, {{fields::sieve_analysis::portion, RecordId{3}}}));
      PRILLBOOK_TRY(set.make(Entity::bead, {{fields::bead::pan_test, RecordId{1}}}));
      PRILLBOOK_TRY(set.make(Entity::bead, {{fields::bead::charge, RecordId{1}}}));
      for (const RecordId bead : {1, 2}) PRILLBOOK_TRY(weigh(set, bead, "bead", 1));
      return {};
    });
    EXPECT_TRUE(made.ok()) << made.error().detail;
  }
  static Result<void> weigh(ChangeSet& set, RecordId bead, const char* what, std::int64_t number) {
    PRILLBOOK_TRY(set.make(Entity::weighing, {{fields::weighing::bead, bead},
                                              {fields::weighing::what, what},
                                              {fields::weighing::number, number},
                                              {fields::weighing::mass, readings::encode(readings::parse("2 mg", {}).value())}}));
    return {};
  }
  std::int64_t rows(const char* table) {
    std::int64_t count = 0;
    EXPECT_TRUE(notebook.connection
                    ->rows_derived(std::string("SELECT count(*) FROM ") + table, {},
                                   [&](const store::Row& row) {
                                     count = row.integer(0);
                                     return true;
                                   })
                    .ok());
    return count;
  }
};

// Everything that can decide, with the ids it is tried on.
struct Lever {
  const Field& field;
  Value on;
  RecordId last;
};
const std::vector<Lever>& levers() {
  static const std::vector<Lever> all{{fields::sample::struck, std::int64_t{1}, 2},
                                      {fields::portion::struck, std::int64_t{1}, 4},
                                      {fields::pan_test::struck, std::int64_t{1}, 1},
                                      {fields::pan_test::spoiled, std::string("spilled"), 1},
                                      {fields::charge::struck, std::int64_t{1}, 1},
                                      {fields::charge::spoiled, std::string("spilled"), 1},
                                      {fields::sieve_analysis::struck, std::int64_t{1}, 1},
                                      {fields::sieve_analysis::spoiled, std::string("spilled"), 1},
                                      {fields::bead::struck, std::int64_t{1}, 2},
                                      {fields::bead::none_seen, std::int64_t{1}, 2},
                                      {fields::bead::method, std::string("touchstone"), 2},
                                      {fields::weighing::struck, std::int64_t{1}, 2},
                                      {fields::weighing::excluded, std::string("spilled"), 2}};
  return all;
}

RC_GTEST_FIXTURE_PROP(WhatWaits, FollowsEveryChange, ()) {
  const auto steps = *rc::gen::container<std::vector<std::tuple<std::size_t, int, bool>>>(
      rc::gen::tuple(rc::gen::inRange<std::size_t>(0, levers().size() + 3), rc::gen::inRange(1, 5), rc::gen::arbitrary<bool>()));
  std::int64_t weighing = 1;
  for (const auto& [step, id, on] : steps) {
    if (step == levers().size())
      (void)notebook.journal->undo();
    else if (step == levers().size() + 1)
      (void)notebook.journal->redo();
    else if (step == levers().size() + 2)
      (void)notebook.journal->record(
          "weigh", [&, id = id, on = on](ChangeSet& set) { return weigh(set, 1 + id % 2, on ? "bead" : "gold", ++weighing); });
    else {
      const Lever& lever = levers()[step];
      const Value off = lever.field.kind == history::FieldKind::flag ? Value{std::int64_t{0}} : Value{};
      const auto set = notebook.journal->record("pull", [&, id = id, on = on](ChangeSet& change) {
        return change.set(lever.field, 1 + (id - 1) % lever.last, on ? lever.on : off);
      });
      RC_ASSERT(set.ok());
    }
  }
  std::string wrong;
  RC_ASSERT(notebook.connection
                ->rows(sql::lists_told_wrongly, {},
                       [&](const store::Row& row) {
                         wrong += row.text(0) + " ";
                         return true;
                       })
                .ok());
  RC_ASSERT(wrong == "");
}

TEST_F(WhatWaits, IsWhatTheRecordsLack) {
  EXPECT_EQ(rows("sample_to_cut WHERE sample_id = 2 AND cut = 0"), 1);
  EXPECT_EQ(rows("sample_to_cut"), 1);
  EXPECT_EQ(rows("portion_to_test"), 0);
  EXPECT_EQ(rows("bead_to_weigh WHERE what = 'gold'"), 2);
  EXPECT_EQ(rows("sample_tested WHERE sample_id = 1 AND pan = 1 AND fire = 1"), 1);
  ASSERT_TRUE(notebook.journal
                  ->record("strike out",
                           [](ChangeSet& set) -> Result<void> {
                             PRILLBOOK_TRY(set.set(fields::pan_test::struck, 1, std::int64_t{1}));
                             return set.set(fields::portion::struck, 2, std::int64_t{1});
                           })
                  .ok());
  EXPECT_EQ(rows("portion_to_test WHERE portion_id = 1 AND purpose = 'pan'"), 1);
  EXPECT_EQ(rows("sample_tested WHERE sample_id = 1 AND pan = 0 AND fire = 0"), 1);
}

// A notebook written before gets its tables when it is opened for writing.
TEST(WhatWaitsMigration, FillsTheTablesFromTheRecords) {
  const auto connection = store::Connection::in_memory(11).value();
  for (const char* row :
       {"INSERT INTO client (id, name) VALUES (1, 'Heron Creek')",
        "INSERT INTO consignment (id, number, client_id, arrived) VALUES (1, '26-C01', 1, '2026-05-04')",
        "INSERT INTO sample (id, number, consignment_id, mark) VALUES (1, '26-0001', 1, 'Fern')",
        "INSERT INTO portion (id, sample_id, number, purpose) VALUES (1, 1, 1, 'pan'), (2, 1, 2, 'fire')",
        "INSERT INTO pan_test (id, portion_id) VALUES (1, 1)", "INSERT INTO bead (id, pan_test_id) VALUES (1, 1)"})
    ASSERT_TRUE(connection->run_derived(row, {}).ok()) << row;
  ASSERT_TRUE(connection->migrate().ok());
  std::vector<std::string> told;
  ASSERT_TRUE(connection
                  ->rows_derived("SELECT 'bead ' || bead_id || ' ' || what FROM bead_to_weigh UNION ALL "
                                 "SELECT 'portion ' || portion_id || ' ' || purpose FROM portion_to_test UNION ALL "
                                 "SELECT 'sample ' || sample_id || ' ' || pan || fire FROM sample_tested",
                                 {},
                                 [&](const store::Row& row) {
                                   told.push_back(row.text(0));
                                   return true;
                                 })
                  .ok());
  EXPECT_THAT(told, testing::ElementsAre("bead 1 bead", "portion 2 fire", "sample 1 00"));
}

}  // namespace
}  // namespace prillbook::upkeep
