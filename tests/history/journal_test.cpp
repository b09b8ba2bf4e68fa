// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/history/journal.h"

#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include <nlohmann/json.hpp>

#include "core/history/fields.h"
#include "core/history/record_sql.h"
#include "core/history/statements.h"
#include "core/history/values.h"
#include "tests/support/notebook.h"

namespace prillbook::history {
namespace {

using testing_support::MemoryNotebook;

class JournalTest : public testing::Test {
 protected:
  MemoryNotebook notebook;
  Journal& journal = *notebook.journal;

  Result<RecordId> make_client(const std::string& name) {
    return journal.record_for<RecordId>("add client", [&](ChangeSet& set) {
      return set.make(Entity::client, {{fields::client::name, name}});
    });
  }
  Result<void> set(const Field& field, RecordId id, Value value) {
    return journal.record("change", [&](ChangeSet& changes) { return changes.set(field, id, value); });
  }
  Value cell(const Field& field, RecordId id) {
    Value value;
    EXPECT_TRUE(notebook.connection
                    ->rows_derived(select_field_sql(field), {id},
                                   [&](const store::Row& row) {
                                     value = row.value(0);
                                     return false;
                                   })
                    .ok());
    return value;
  }
  std::vector<std::string> history_of(Entity entity, RecordId id) {
    std::vector<std::string> rows;
    EXPECT_TRUE(notebook.connection
                    ->rows(sql::rows_of_record, {static_cast<std::int64_t>(entity), id},
                           [&](const store::Row& row) {
                             rows.push_back(row.text(3) + " " + row.text(9) + ": " + row.text(7) + " -> " + row.text(8));
                             return true;
                           })
                    .ok());
    return rows;
  }
};

// The text is put together here and by nlohmann/json; the hash of a row hangs on every byte of it.
RC_GTEST_PROP(MadeText, IsWhatTheLibraryWrites, ()) {
  const auto name = *rc::gen::container<std::string>(rc::gen::weightedOneOf<char>({{12, rc::gen::inRange<char>(0x20, 0x7F)},
                                                                                   {2, rc::gen::elementOf(std::string("\"\\/"))},
                                                                                   {1, rc::gen::arbitrary<char>()}}));
  const auto client = *rc::gen::arbitrary<std::int64_t>();
  nlohmann::ordered_json object;
  object[std::to_string(fields::consignment::number.code)] = name;
  object[std::to_string(fields::consignment::client.code)] = client;
  const std::string text = made_text({{fields::consignment::client, client}, {fields::consignment::number, name}});
  RC_ASSERT(text == object.dump(-1, ' ', false, nlohmann::json::error_handler_t::replace));
}

// A reading that is no JSON is refused, whatever was done to it; the library is the judge.
RC_GTEST_PROP(CheckValue, AgreesWithTheLibraryOnReadings, ()) {
  std::string text = R"({"typed":"0,022 g","unit":"g","mark":",","value":-0.0220,"balance":3})";
  const int changes = *rc::gen::inRange(0, 3);
  for (int i = 0; i < changes; ++i) {
    const auto at = *rc::gen::inRange<std::size_t>(0, text.size());
    text[at] = *rc::gen::elementOf(std::string(R"({}":,.-+0123eE\ at)") + '\0');
  }
  text.resize(*rc::gen::elementOf(std::vector<std::size_t>{text.size(), text.size() - 1, text.size() / 2}));
  RC_ASSERT(check_value(fields::sample::mass_received, text).ok() == nlohmann::json::accept(text));
}

TEST(CheckValue, TellsOddNumbersAsTheLibraryDoes) {
  for (const char* number :
       {"0", "-0", "01", "-", "1.", ".5", "1.5", "1e5", "1E-05", "00", "0x1", "", "1 ", "nan", "-01", "0.0"}) {
    const std::string text = std::string(R"({"value":)") + number + "}";
    EXPECT_EQ(check_value(fields::sample::mass_received, text).ok(), nlohmann::json::accept(text)) << text;
  }
}

TEST_F(JournalTest, EveryChangeHasItsRow) {
  const auto id = make_client("Larch Adit Syndicate");
  ASSERT_TRUE(id.ok()) << id.error().detail;
  ASSERT_TRUE(set(fields::client::contact, *id, "by post").ok());
  EXPECT_EQ(history_of(Entity::client, *id),
            (std::vector<std::string>{R"(add client HM:  -> {"2":"Larch Adit Syndicate"})", "change HM:  -> by post"}));
}

TEST_F(JournalTest, SameValueWritesNothing) {
  const auto id = make_client("A");
  const Hash head = journal.head();
  ASSERT_TRUE(set(fields::client::name, *id, "A").ok());
  EXPECT_EQ(journal.head(), head);
}

TEST_F(JournalTest, FailedGestureLeavesNothing) {
  const auto id = make_client("A");
  const Hash head = journal.head();
  const auto failed = journal.record("two things", [&](ChangeSet& set) -> Result<void> {
    PRILLBOOK_TRY(set.set(fields::client::contact, *id, "kept?"));
    return set.set(fields::client::name, *id, {});
  });
  ASSERT_FALSE(failed.ok());
  EXPECT_EQ(failed.error().code, ErrorCode::missing_key);
  EXPECT_EQ(failed.error().field, "client.name");
  EXPECT_TRUE(store::is_null(cell(fields::client::contact, *id)));
  EXPECT_EQ(journal.head(), head);
  ASSERT_TRUE(set(fields::client::contact, *id, "later").ok()) << "the journal goes on after a refused gesture";
}

TEST_F(JournalTest, UndoAndRedoAreNewRows) {
  const auto id = make_client("A");
  ASSERT_TRUE(set(fields::client::name, *id, "B").ok());
  ASSERT_TRUE(journal.undo().ok());
  EXPECT_EQ(cell(fields::client::name, *id), Value("A"));
  ASSERT_TRUE(journal.redo().ok());
  EXPECT_EQ(cell(fields::client::name, *id), Value("B"));
  ASSERT_TRUE(journal.undo().ok());
  ASSERT_TRUE(journal.undo().ok());
  EXPECT_EQ(cell(fields::client::struck, *id), Value(std::int64_t{1})) << "a record that is taken back is struck out";
  EXPECT_FALSE(journal.can_undo());
  EXPECT_EQ(journal.undo().error().code, ErrorCode::not_found);
  ASSERT_TRUE(journal.redo().ok());
  EXPECT_EQ(cell(fields::client::struck, *id), Value(std::int64_t{0}));
  EXPECT_EQ(history_of(Entity::client, *id).size(), 7u);
}

TEST_F(JournalTest, HistoryCanNotBeRewritten) {
  ASSERT_TRUE(make_client("A").ok());
  for (const char* text :
       {"UPDATE history SET who = 'XX'", "DELETE FROM history",
        "INSERT OR REPLACE INTO history SELECT id, change_set, takes_back, gesture, entity, record, field, old, new, 'XX', "
        "utc_ms, offset_minutes, why, hash FROM history"})
    EXPECT_FALSE(notebook.connection->run_derived(text, {}).ok()) << text;
}

TEST_F(JournalTest, RefusesBadValues) {
  const auto id = make_client("A");
  EXPECT_EQ(set(fields::client::name, *id, std::int64_t{3}).error().code, ErrorCode::wrong_type);
  EXPECT_EQ(set(fields::client::name, *id, "\xC3\x28").error().code, ErrorCode::wrong_type);
  EXPECT_EQ(set(fields::client::name, 99, "B").error().code, ErrorCode::not_found);
  EXPECT_EQ(set(fields::sample::kind, 1, "pebble").error().code, ErrorCode::out_of_range);
}

TEST_F(JournalTest, TakenNumberSaysSo) {
  const auto person = [&] {
    return journal.record_for<RecordId>("add person", [&](ChangeSet& set) {
      return set.make(Entity::person, {{fields::person::initials, "HM"}});
    });
  };
  ASSERT_TRUE(person().ok());
  EXPECT_EQ(person().error().code, ErrorCode::already_exists);
}

TEST_F(JournalTest, ListenersLearnOfEachGestureOnce) {
  std::vector<std::string> heard;
  journal.listen(
      [&](const Written& written) { heard.push_back(written.gesture + " " + std::to_string(written.changes.size())); });
  const auto id = make_client("A");
  ASSERT_TRUE(set(fields::client::name, *id, "B").ok());
  ASSERT_TRUE(journal.undo().ok());
  EXPECT_EQ(heard, (std::vector<std::string>{"add client 1", "change 1", "take back 1"}));
}

TEST(Catalogue, MatchesTheSchema) {
  const auto connection = store::Connection::in_memory().value();
  for (const EntitySpec& entity : catalogue()) {
    std::vector<std::string> columns, expected{"id"};
    ASSERT_TRUE(connection
                    ->rows_derived("SELECT name FROM pragma_table_info('" + std::string(entity.table) + "')", {},
                                   [&](const store::Row& row) {
                                     columns.push_back(row.text(0));
                                     return true;
                                   })
                    .ok());
    for (const Field* field : entity.fields) expected.emplace_back(field->column);
    EXPECT_EQ(columns, expected) << entity.table;
    EXPECT_EQ(entity.fields.front()->code, struck_code);
    for (std::size_t i = 1; i < entity.fields.size(); ++i)
      EXPECT_GT(entity.fields[i]->code, entity.fields[i - 1]->code) << "codes ascend in " << entity.table;
    for (const Field* field : entity.fields) {
      EXPECT_EQ(field->kind == FieldKind::reading, field->measure.has_value()) << field->column;
      EXPECT_EQ(field->kind == FieldKind::reference, field->refers.has_value()) << field->column;
      EXPECT_EQ(field->kind == FieldKind::choice, !field->choices.empty()) << field->column;
    }
  }
}

TEST(Statements, AllCompile) {
  const auto connection = store::Connection::in_memory().value();
  for (const store::Sql* statement : sql::all) {
    const auto prepared = connection->prepare_only(*statement);
    EXPECT_TRUE(prepared.ok()) << statement->name << ": " << (prepared.ok() ? "" : prepared.error().detail);
  }
}

}  // namespace
}  // namespace prillbook::history
