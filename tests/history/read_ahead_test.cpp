// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/history/read_ahead.h"

#include <gmock/gmock.h>

#include "core/history/fields.h"
#include "tests/support/notebook.h"

namespace prillbook::history {
namespace {

using testing::ElementsAre;
using testing::IsEmpty;
namespace consignment = fields::consignment;

class ReadAheadTest : public testing::Test {
 protected:
  testing_support::MemoryNotebook notebook;
  store::Connection& connection = *notebook.connection;

  RecordId make(Entity entity, const std::vector<Setting>& cells) {
    return *notebook.journal->record_for<RecordId>("make", [&](ChangeSet& set) { return set.make(entity, cells); });
  }
  RecordId client(const std::string& name) { return make(Entity::client, {{fields::client::name, name}}); }
  RecordId from(RecordId client, const std::string& number) {
    return make(Entity::consignment, {{consignment::number, number},
                                      {consignment::client, client},
                                      {consignment::arrived, std::string("2026-05-04T09:00+02:00")}});
  }
  static std::vector<std::string> numbers(const Result<std::vector<Record>>& records) {
    std::vector<std::string> list;
    for (const Record& record : *records) list.push_back(record.text(consignment::number));
    return list;
  }
};

TEST_F(ReadAheadTest, GivesEachOwnerItsOwnById) {
  std::vector<RecordId> clients;
  for (const char* name : {"Ada", "Ben", "Cy", "Dot", "Eve", "Flo"}) clients.push_back(client(name));
  from(clients[4], "C1"), from(clients[1], "C2"), from(clients[4], "C3");
  ReadAhead ahead(connection);
  // The latest first, so that the order is not the one in which they were asked for.
  const std::vector<RecordId> asked(clients.rbegin(), clients.rend() - 1);
  EXPECT_EQ(ahead.read(consignment::client, asked)->size(), 3u);
  const Source source(connection, ahead);
  EXPECT_THAT(numbers(load_referring(source, consignment::client, clients[4])), ElementsAre("C1", "C3"));
  EXPECT_THAT(numbers(load_referring(source, consignment::client, clients[1])), ElementsAre("C2"));
  EXPECT_THAT(numbers(load_referring(source, consignment::client, clients[2])), IsEmpty());
  EXPECT_FALSE(ahead.find(consignment::client, clients[0])) << "it was not asked for";
  from(clients[0], "C4");
  EXPECT_THAT(numbers(load_referring(source, consignment::client, clients[0])), ElementsAre("C4")) << "the notebook has it";
}

// Numbers close together are read as one stretch, others by a list of them.
TEST_F(ReadAheadTest, TakesNothingThatLiesBetween) {
  std::vector<RecordId> clients;
  for (int i = 0; i < 40; ++i) clients.push_back(client("client " + std::to_string(i)));
  for (const RecordId owner : clients) from(owner, "C" + std::to_string(owner));
  for (const std::size_t step : {std::size_t(1), std::size_t(2), std::size_t(5), std::size_t(13)}) {
    std::vector<RecordId> asked;
    for (std::size_t i = 0; i < clients.size(); i += step) asked.push_back(clients[i]);
    ReadAhead ahead(connection);
    ASSERT_TRUE(ahead.read(Entity::client, asked).ok());
    EXPECT_EQ(ahead.read(consignment::client, asked)->size(), asked.size()) << step;
    for (const RecordId id : clients) {
      const bool was_asked = std::find(asked.begin(), asked.end(), id) != asked.end();
      EXPECT_EQ(ahead.find(Entity::client, id) != nullptr, was_asked) << step;
      EXPECT_EQ(ahead.find(consignment::client, id).has_value(), was_asked) << step;
      EXPECT_THAT(numbers(load_referring({connection, ahead}, consignment::client, id)), ElementsAre("C" + std::to_string(id)));
    }
  }
}

TEST_F(ReadAheadTest, AsksForNumbersThatNoRecordCanHave) {
  const RecordId ada = client("Ada");
  ReadAhead ahead(connection);
  const RecordId asked[] = {INT64_MIN, -1, ada, INT64_MAX};
  ASSERT_TRUE(ahead.read(Entity::client, asked).ok());
  EXPECT_TRUE(ahead.find(Entity::client, ada));
  EXPECT_FALSE(ahead.find(Entity::client, -1));
  EXPECT_FALSE(ahead.find(Entity::client, INT64_MAX));
}

TEST_F(ReadAheadTest, ReadsEveryKindOfCell) {
  const RecordId ada = client("Ada \u00e9");
  const RecordId made = from(ada, "C1");
  ReadAhead ahead(connection);
  ASSERT_TRUE(ahead.read(Entity::consignment, {&made, 1}).ok());
  for (const auto& record : {*ahead.find(Entity::consignment, made), *load_record(connection, Entity::consignment, made)}) {
    EXPECT_EQ(record.text_view(consignment::number), "C1");
    EXPECT_EQ(record.optional_text(consignment::client), std::nullopt) << "a number is no text";
    EXPECT_EQ(record.optional_whole(consignment::client), ada);
    EXPECT_EQ(record.optional_whole(consignment::number), std::nullopt);
    EXPECT_EQ(record.value(consignment::number), store::Value(std::string("C1")));
    EXPECT_EQ(record.value(consignment::client), store::Value(ada));
    EXPECT_EQ(record.value(consignment::remarks), store::Value());
    EXPECT_EQ(record.text(consignment::remarks), "");
    EXPECT_FALSE(record.struck());
  }
}

TEST_F(ReadAheadTest, LeavesOutWhatIsStruckOutAsTheNotebookDoes) {
  const RecordId owner = client("Ada");
  const RecordId struck = from(owner, "C1");
  from(owner, "C2");
  ASSERT_TRUE(notebook.journal
                  ->record("strike out", [&](ChangeSet& set) { return set.set(consignment::struck, struck, std::int64_t{1}); })
                  .ok());
  ReadAhead ahead(connection);
  ASSERT_TRUE(ahead.read(consignment::client, {&owner, 1}).ok());
  EXPECT_THAT(numbers(load_referring({connection, ahead}, consignment::client, owner)), ElementsAre("C2"));
  ASSERT_TRUE(ahead.read(Entity::consignment, {&struck, 1}).ok());
  EXPECT_TRUE(ahead.find(Entity::consignment, struck)->struck()) << "asked for by itself it is there";
}

TEST_F(ReadAheadTest, ARecordIsTheSameWhetherOneIsAskedForOrMany) {
  std::vector<RecordId> clients;
  for (int i = 0; i < 200; ++i) clients.push_back(client("client " + std::to_string(i)));
  ReadAhead ahead(connection);
  ASSERT_TRUE(ahead.read(Entity::client, clients).ok());
  for (const RecordId id : clients)
    EXPECT_EQ(load_record({connection, ahead}, Entity::client, id)->text(fields::client::name),
              load_record(connection, Entity::client, id)->text(fields::client::name));
  EXPECT_EQ(load_record({connection, ahead}, Entity::client, 999).error().code, ErrorCode::not_found);
}

}  // namespace
}  // namespace prillbook::history
