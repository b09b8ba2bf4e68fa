// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/search/search.h"

#include <fmt/format.h>
#include <fmt/ranges.h>
#include <gmock/gmock.h>
#include <rapidcheck/gtest.h>

#include "core/history/fields.h"
#include "core/history/search_index.h"
#include "core/search/expression.h"
#include "core/search/statements.h"
#include "tests/support/records.h"

namespace prillbook::search {
namespace {

namespace fields = history::fields;
using history::Entity;
using testing::ElementsAre;
using testing::IsEmpty;
using testing_support::LabWithSample;

struct Search : testing::Test {
  LabWithSample<> lab;  // 26-0001 "Larch adit N" of the Larch Adit Syndicate, consignment 26-C01

  std::vector<std::string> found(std::string_view text, std::size_t limit = 8) {
    std::vector<std::string> numbers;
    const auto hits = find(*lab.connection, text, limit);
    EXPECT_TRUE(hits.ok()) << hits.error().detail;
    if (hits.ok())
      for (const Hit& hit : *hits) numbers.push_back(hit.number);
    return numbers;
  }
  void enter(const history::Field& field, RecordId record, history::Value value) {
    ASSERT_TRUE(readings::enter(lab.book, field, record, std::move(value)).ok());
  }
  std::vector<store::Fault> faults() {
    store::FaultList list;
    EXPECT_TRUE(history::verify_search_index(*lab.connection, list).ok());
    return list.all();
  }
};

TEST_F(Search, FindsByEveryWordThatStandsAboutASample) {
  enter(fields::sample::place, lab.sample.value, "north drive, second raise");
  enter(fields::sample::remarks, lab.sample.value, "smells of garlic");
  for (const char* text : {"26-0001", "larch ADIT n", "adit larch", "syndicate", "26-C01", "raise", "garlic", "dri rai", "LAR"})
    EXPECT_THAT(found(text), testing::Contains("26-0001")) << text;
  EXPECT_THAT(found("larch gneiss"), IsEmpty()) << "every word is needed";
  EXPECT_THAT(found("arch"), IsEmpty()) << "words are found by how they begin";
}

TEST_F(Search, SaysWhatItFound) {
  enter(fields::consignment::carrier, lab.consignment.value, "the post");
  const auto hits = *find(*lab.connection, "26-c01", 8);
  ASSERT_EQ(hits.size(), 2u);
  EXPECT_EQ(hits[0].entity, Entity::consignment) << "a number that begins with the text comes first";
  EXPECT_EQ(hits[0].record, lab.consignment.value);
  EXPECT_EQ(hits[0].client, "Larch Adit Syndicate");
  EXPECT_EQ(hits[0].place, "the post");
  EXPECT_EQ(hits[1].entity, Entity::sample);
  EXPECT_EQ(hits[1].record, lab.sample.value);
  EXPECT_EQ(hits[1].mark, "Larch adit N");
}

TEST_F(Search, NumbersThatBeginWithTheTextComeFirst) {
  for (int i = 2; i <= 12; ++i) lab.log_sample(fmt::format("bag {}", i), "1 kg");
  lab.log_sample("26-0001 of last year", "1 kg");  // 26-0013
  EXPECT_THAT(found("26-000", 3), ElementsAre("26-0001", "26-0002", "26-0003"));
  EXPECT_THAT(found("26-0001"), ElementsAre("26-0001", "26-0013"));
  EXPECT_THAT(found("bag", 2), ElementsAre("26-0012", "26-0011")) << "else the newest first";
}

TEST_F(Search, ConsignmentsLeaveRoomForSamples) {
  for (int i = 0; i < 10; ++i) {
    lab.consignment = *custody::log_consignment(lab.book, {lab.client, {}, {}, {}, {}, {}, {}});
    lab.log_sample("x", "1 kg");
  }
  const auto hits = *find(*lab.connection, "larch", 8);
  ASSERT_EQ(hits.size(), 8u);
  EXPECT_EQ(std::count_if(hits.begin(), hits.end(), [](const Hit& hit) { return hit.entity == Entity::consignment; }), 2);
}

TEST_F(Search, CaseAndDiacriticsMakeNoDifference) {
  lab.log_sample("Žďár – ČERVENÁ štola", "1 kg");
  for (const char* text : {"zdar", "ŽĎÁR", "cervena stola", "Červená", "štola"}) EXPECT_THAT(found(text), ElementsAre("26-0002"));
}

TEST_F(Search, AnyTextIsText) {
  lab.log_sample("\"the\" AND * OR NOT near(5) -x ^y col:z", "1 kg");
  for (const char* text : {"AND", "and or not", "a NOT", "NEAR(", "\"the\"", "near(5)", "col:z", "^y", "-x", "the*"})
    EXPECT_THAT(found(text), ElementsAre("26-0002")) << text;
  for (const char* text : {"\"", "*", "''", ")", "(", "\"\"\"", "--", "%", "_", "\\", "  ", "", "{q}:b", "\xFF"})
    EXPECT_THAT(found(text), IsEmpty()) << text;
  EXPECT_THAT(found(std::string_view("lar\0ch", 6)), IsEmpty());
  EXPECT_THAT(found(std::string_view("\0", 1)), IsEmpty());
  EXPECT_THAT(found(std::string(100000, 'x')), IsEmpty());
}

RC_GTEST_FIXTURE_PROP(Search, NoTextIsRefused, ()) {
  const auto text = *rc::gen::container<std::string>(
      rc::gen::weightedOneOf<char>({{3, rc::gen::element('"', '*', '(', ')', ':', '^', '-', ' ', '{', '}', '\0')},
                                    {2, rc::gen::arbitrary<char>()},
                                    {1, rc::gen::element('A', 'N', 'D', 'O', 'R', 'T', '2', '6')}}));
  RC_ASSERT(find(*lab.connection, text, 8).ok());
}

// The words that a beginning stands for are those that begin so: the same rows as FTS5 finds by the beginning itself.
RC_GTEST_FIXTURE_PROP(Search, TheWordsThereAreFindWhatTheBeginningFinds, ()) {
  const auto letter = rc::gen::element<std::string>("a", "b", "l", "L", "0", "1", "ö", "Ö", "š", "ß", "-", "й", "鉱");
  const auto word =
      rc::gen::map(rc::gen::nonEmpty(rc::gen::container<std::vector<std::string>>(letter)),
                   [](const std::vector<std::string>& letters) { return fmt::format("{}", fmt::join(letters, "")); });
  const auto words = rc::gen::resize(10, rc::gen::container<std::vector<std::string>>(word));
  for (const std::string& mark : *words) lab.log_sample(mark, "1 kg");
  const std::vector<std::string> typed = *rc::gen::nonEmpty(words);
  std::string beginnings;
  for (const std::string& one : typed) beginnings += fmt::format("\"{}\"* ", one);
  const auto rows = [&](const std::string& expression) {
    std::vector<std::int64_t> ids;
    const auto read = lab.connection->rows(sql::samples_by_words, {std::string_view(expression), std::int64_t{1000}},
                                           [&](const store::Row& row) {
                                             ids.push_back(row.integer(0));
                                             return true;
                                           });
    RC_ASSERT(read.ok());
    return ids;
  };
  RC_ASSERT(rows(*expression_of(*lab.connection, fmt::format("{}", fmt::join(typed, " ")))) == rows(beginnings));
}

TEST_F(Search, ABeginningStandsAsTheWordsThereAre) {
  for (const char* mark : {"fern 7", "ferns", "Fërnwald", "fox", "f"}) lab.log_sample(mark, "1 kg");
  const auto expression = [&](std::string_view text) { return *expression_of(*lab.connection, text); };
  EXPECT_EQ(expression("fer"), "(\"fern\" OR \"ferns\" OR \"fernwald\")");
  EXPECT_EQ(expression("FËRN"), "(\"fern\" OR \"ferns\" OR \"fernwald\")");
  EXPECT_EQ(expression("f"), "(\"f\" OR \"fe\"* OR \"fo\"*)");
  EXPECT_EQ(expression("fe"), "\"fe\"*") << "two letters are indexed";
  EXPECT_EQ(expression("fern-x  7"), "\"fern-x\"* AND (\"7\")") << "two words to the table stay as they are";
  EXPECT_EQ(expression("heron"), "\"heron\"*");
  EXPECT_EQ(expression(" \"\" "), "");
}

TEST_F(Search, TooManyWordsStayABeginning) {
  for (int i = 0; i < 101; ++i) lab.log_sample(fmt::format("fern{:03}", i), "1 kg");
  EXPECT_EQ(*expression_of(*lab.connection, "fern"), "\"fern\"*");
  EXPECT_EQ(found("fern").size(), 8u);
  EXPECT_EQ(found("fern0").size(), 8u);
}

TEST_F(Search, FollowsEveryChange) {
  enter(fields::sample::mark, lab.sample.value, "Fern 7");
  EXPECT_THAT(found("fern"), ElementsAre("26-0001"));
  EXPECT_THAT(found("larch n"), IsEmpty());
  enter(fields::client::name, lab.client.value, "Quarry Hill");
  EXPECT_THAT(found("quarry fern"), ElementsAre("26-0001"));
  EXPECT_THAT(found("syndicate"), IsEmpty());
  const ClientId other = *lab::add_client(lab.book, "Heron Creek");
  enter(fields::consignment::client, lab.consignment.value, other.value);
  EXPECT_THAT(found("heron"), ElementsAre("26-C01", "26-0001"));
  EXPECT_THAT(found("quarry"), IsEmpty());
  EXPECT_THAT(faults(), IsEmpty());
}

TEST_F(Search, WhatIsStruckOutOrTakenBackIsNotFound) {
  ASSERT_TRUE(readings::strike_out(lab.book, Entity::sample, lab.sample.value, "logged twice").ok());
  EXPECT_THAT(found("adit n"), IsEmpty());
  ASSERT_TRUE(lab.book.undo().ok());
  EXPECT_THAT(found("adit n"), ElementsAre("26-0001"));
  lab.log_sample("Fern", "1 kg");
  ASSERT_TRUE(lab.book.undo().ok());
  EXPECT_THAT(found("fern"), IsEmpty());
  ASSERT_TRUE(lab.book.redo().ok());
  EXPECT_THAT(found("fern"), ElementsAre("26-0002"));
  EXPECT_THAT(faults(), IsEmpty());
}

TEST_F(Search, ARefusedGestureLeavesItAsItWas) {
  const auto outcome = lab.book.record("log two", [&](history::ChangeSet& set) -> Result<void> {
    PRILLBOOK_TRY(set.set(fields::sample::mark, lab.sample.value, "Fern"));
    return Error{ErrorCode::conflict, "", "changed their mind", {}};
  });
  ASSERT_FALSE(outcome.ok());
  EXPECT_THAT(found("fern"), IsEmpty());
  EXPECT_THAT(found("adit n"), ElementsAre("26-0001"));
  EXPECT_THAT(faults(), IsEmpty());
}

// Any gestures through the journal, whatever they write: the words are those of the records.
RC_GTEST_FIXTURE_PROP(Search, TheWordsAreThoseOfTheRecords, ()) {
  const auto steps = *rc::gen::container<std::vector<std::pair<int, std::string>>>(
      rc::gen::pair(rc::gen::inRange(0, 11), rc::gen::container<std::string>(rc::gen::inRange('a', 'e'))));
  for (const auto& [step, word] : steps) {
    const history::Value text = word.empty() ? history::Value{} : history::Value{word};
    switch (step) {
      case 0: lab.log_sample(word + "x", "1 kg"); break;
      case 1: (void)readings::enter(lab.book, fields::sample::place, lab.sample.value, text); break;
      case 2: (void)readings::enter(lab.book, fields::client::name, lab.client.value, text); break;
      case 3: (void)readings::enter(lab.book, fields::consignment::remarks, lab.consignment.value, text); break;
      case 4: (void)readings::strike_out(lab.book, Entity::sample, lab.sample.value, ""); break;
      case 5: (void)readings::strike_out(lab.book, Entity::consignment, lab.consignment.value, ""); break;
      case 6: (void)lab.book.undo(); break;
      case 7: (void)lab.book.redo(); break;
      case 8: lab.consignment = *custody::log_consignment(lab.book, {lab.client, {}, word, {}, {}, {}, {}}); break;
      case 9: (void)readings::enter(lab.book, fields::sample::consignment, lab.sample.value, lab.consignment.value); break;
      case 10: (void)readings::enter(lab.book, fields::consignment::number, lab.consignment.value, text); break;
    }
  }
  store::FaultList list;
  RC_ASSERT(history::verify_search_index(*lab.connection, list).ok());
  RC_ASSERT(list.empty());
}

TEST_F(Search, ACheckTellsWhatIsWrongAndARebuildMendsIt) {
  for (const char* damage :
       {"UPDATE search SET mark = 'another' WHERE rowid = 1", "DELETE FROM search WHERE rowid = 1",
        "INSERT INTO search (rowid, number) VALUES (77, '26-0077')", "UPDATE search SET client = NULL WHERE rowid > 1000"}) {
    ASSERT_TRUE(lab.connection->run_derived(damage, {}).ok());
    EXPECT_EQ(faults().size(), 1u) << damage;
    ASSERT_TRUE(history::rebuild_search_index(*lab.connection).ok());
    EXPECT_THAT(faults(), IsEmpty()) << damage;
  }
}

// A notebook of the first schema gets its words when it is opened for writing.
TEST(SearchMigration, FillsTheTableFromTheRecords) {
  const auto connection = store::Connection::in_memory(1).value();
  for (const char* row : {"INSERT INTO client (id, name) VALUES (1, 'Heron Creek')",
                          "INSERT INTO consignment (id, number, client_id, arrived) VALUES (1, '26-C01', 1, '2026-05-04')",
                          "INSERT INTO sample (id, number, consignment_id, mark) VALUES (1, '26-0001', 1, 'Fern')"})
    ASSERT_TRUE(connection->run_derived(row, {}).ok()) << row;
  EXPECT_THAT(*find(*connection, "fern", 8), IsEmpty()) << "no table yet";
  ASSERT_TRUE(connection->migrate().ok());
  store::FaultList list;
  ASSERT_TRUE(history::verify_search_index(*connection, list).ok());
  EXPECT_TRUE(list.empty());
  EXPECT_EQ(find(*connection, "fern heron", 8)->size(), 1u);
}

TEST(SearchStatements, AllCompile) {
  const auto connection = store::Connection::in_memory().value();
  for (const store::Sql* statement : sql::all) EXPECT_TRUE(connection->prepare_only(*statement).ok()) << statement->name;
}

}  // namespace
}  // namespace prillbook::search
