// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/exchange/notebook_dump.h"

#include <gtest/gtest.h>

#include <filesystem>
#include <nlohmann/json.hpp>
#include <random>

#include "core/history/fields.h"
#include "core/upkeep/check.h"
#include "tests/support/files.h"
#include "tests/support/generator.h"
#include "tests/support/notebook.h"

namespace prillbook::exchange {
namespace {

namespace fs = std::filesystem;
namespace fields = history::fields;
using history::ChangeSet;
using history::Entity;
using testing_support::FileNotebook;
using testing_support::TempFolder;

std::string dump_of(const std::string& path) {
  const auto connection = store::Connection::open(path, store::Access::read_only);
  EXPECT_TRUE(connection.ok()) << connection.error().detail;
  return dump_notebook(**connection).value();
}

class DumpTest : public testing::Test {
 protected:
  static const std::string& sample() {
    static const std::string text = [] {
      FileNotebook notebook;
      EXPECT_TRUE(testing_support::generate(*notebook.journal, notebook.clock, {.samples = 12, .seed = 3}).ok());
      return dump_notebook(*notebook.connection).value();
    }();
    return text;
  }
  // The dump with one piece of its text replaced; it has to be there.
  static std::string with(const std::string& from, const std::string& to) {
    std::string text = sample();
    const auto at = text.find(from);
    EXPECT_NE(at, std::string::npos) << from;
    return text.replace(at, from.size(), to);
  }
  Error refused(const std::string& text) {
    const auto outcome = restore_notebook(text, target);
    EXPECT_FALSE(outcome.ok()) << text.substr(0, 200);
    EXPECT_TRUE(fs::is_empty(folder.path())) << "nothing is left behind";
    return outcome.ok() ? Error{ErrorCode::cancelled, "", "", {}} : outcome.error();
  }

  TempFolder folder;
  std::string target = folder.file("restored.prillbook");
};

TEST_F(DumpTest, RestoredNotebookGivesTheSameDump) {
  const auto outcome = restore_notebook(sample(), target);
  ASSERT_TRUE(outcome.ok()) << outcome.error().detail;
  EXPECT_EQ(dump_of(target), sample());
  EXPECT_TRUE(upkeep::check_notebook(target)->sound());
}

TEST_F(DumpTest, UnchangedNotebookGivesTheSameBytes) {
  FileNotebook notebook;
  ASSERT_TRUE(testing_support::generate(*notebook.journal, notebook.clock, {.samples = 3}).ok());
  const std::string first = dump_notebook(*notebook.connection).value();
  const std::string moved = folder.file("moved.prillbook");
  fs::copy_file(notebook.path, moved);
  EXPECT_EQ(dump_of(moved), first) << "neither the path nor the time is in it";
  EXPECT_EQ(nlohmann::json::parse(first).size(), 6u);
}

TEST_F(DumpTest, EmptyNotebook) {
  const auto connection = store::Connection::in_memory().value();
  const std::string text = dump_notebook(*connection).value();
  ASSERT_TRUE(restore_notebook(text, target).ok());
  EXPECT_EQ(dump_of(target), text);
}

TEST_F(DumpTest, TextOfEveryKindComesBack) {
  FileNotebook notebook;
  ASSERT_TRUE(notebook.journal
                  ->record("add client",
                           [](ChangeSet& set) -> Result<void> {
                             PRILLBOOK_TRY(set.make(Entity::client,
                                                    {{fields::client::name, "\"quoted\" \\ \n\t\x01\x7f µ ‰ \xF0\x9F\xAA\xA8"}}));
                             return {};
                           })
                  .ok());
  const std::string text = dump_notebook(*notebook.connection).value();
  ASSERT_TRUE(restore_notebook(text, target).ok());
  EXPECT_EQ(dump_of(target), text);
}

TEST_F(DumpTest, RestoredNotebookGoesOn) {
  ASSERT_TRUE(restore_notebook(sample(), target).ok());
  {
    SteppingClock clock = testing_support::monday_morning();
    const auto connection = store::Connection::open(target, store::Access::read_write).value();
    const auto journal = history::Journal::open(*connection, clock).value();
    ASSERT_TRUE(journal->record("change", [](ChangeSet& set) { return set.set(fields::sample::remarks, 1, "later"); }).ok());
  }
  EXPECT_TRUE(upkeep::check_notebook(target)->sound());
}

TEST_F(DumpTest, ExistingFileIsNotTouched) {
  testing_support::write_file(target, "mine");
  EXPECT_EQ(restore_notebook(sample(), target).error().code, ErrorCode::already_exists);
  EXPECT_EQ(testing_support::file_text(target), "mine");
}

TEST_F(DumpTest, FolderMustBeThere) { EXPECT_FALSE(restore_notebook(sample(), folder.file("gone/x.prillbook")).ok()); }

TEST_F(DumpTest, MalformedTextIsRefused) {
  for (const char* text : {"", "{", "null", "3", "[]", "\xff", "{}", R"({"format":"notebook"})", R"({"format":"records"})",
                           R"({"tables":{}})", R"({"format":"notebook","format_version":1,"schema_version":1})",
                           R"({"format":"notebook","format_version":1,"schema_version":1,"history":[]})",
                           R"({"format":"notebook","format_version":1,"schema_version":1,"tables":{},"history":{}})",
                           R"({"format":"notebook","format_version":1,"schema_version":1,"tables":[],"history":[]})",
                           R"({"format":"notebook","format_version":1,"schema_version":1,"tables":{},"tables":{}})",
                           R"({"format":"notebook","format_version":1,"schema_version":1,"tables":{"sample":3},"history":[]})",
                           R"({"format":"notebook","format_version":1,"schema_version":1,"tables":{},"history":[]} x)",
                           R"({"format":"notebook","format_version":1,"schema_version":1,"tables":{},"history":[[]]})"})
    refused(text);
  refused(std::string(200'000, '['));
  refused(R"({"format":"notebook","format_version":1,"schema_version":1,"tables":)" + std::string(200'000, '['));
}

TEST_F(DumpTest, RefusalsSayWhatIsWrong) {
  EXPECT_EQ(refused("{\"format\":").code, ErrorCode::malformed_json);
  EXPECT_EQ(refused(with("\"format\":\"notebook\"", "\"format\":\"records\"")).code, ErrorCode::inconsistent);
  EXPECT_EQ(refused(with("\"format_version\":1", "\"format_version\":2")).code, ErrorCode::newer_version);
  const std::string version = "\"schema_version\":" + std::to_string(store::Connection::newest_version());
  EXPECT_EQ(refused(with(version, "\"schema_version\":99")).code, ErrorCode::newer_version);
  EXPECT_EQ(refused(with(version, "\"schema_version\":0")).code, ErrorCode::out_of_range);
  EXPECT_EQ(refused(with(version, version + ",\"more\":1")).code, ErrorCode::unknown_key);
  EXPECT_EQ(refused(with("\"person\":[", "\"people\":[")).code, ErrorCode::unknown_key);
  EXPECT_EQ(refused(with("\"initials\":\"HM\"", "\"initials\":3")).code, ErrorCode::wrong_type);
  EXPECT_EQ(refused(with("\"initials\":\"HM\"", "\"initials\":null")).code, ErrorCode::wrong_type);
  EXPECT_EQ(refused(with("\"initials\":\"HM\",", "")).code, ErrorCode::missing_key);
  EXPECT_EQ(refused(with("\"struck\":0", "\"struck\":\"0\"")).code, ErrorCode::wrong_type);
  EXPECT_EQ(refused(with("\"struck\":0", "\"struck\":0,\"struck\":0")).code, ErrorCode::conflict);
  EXPECT_EQ(refused(with("\"struck\":0", "\"struck\":0.5")).code, ErrorCode::wrong_type);
  EXPECT_EQ(refused(with("\"id\":1", "\"id\":18446744073709551615")).code, ErrorCode::out_of_range);
  EXPECT_EQ(refused(with("\"change_set\":1", "\"change_set\":\"1\"")).code, ErrorCode::wrong_type);
  EXPECT_EQ(refused(with("\"offset_minutes\":60", "\"offset_minutes\":99999999999")).code, ErrorCode::wrong_type);
  EXPECT_EQ(refused(with("\"gesture\":\"set up the lab\",", "")).code, ErrorCode::missing_key);
  EXPECT_EQ(refused(with("\"hash\":\"", "\"hash\":\"A")).code, ErrorCode::wrong_type);
  const Error unknown = refused(with("\"initials\":\"HM\"", "\"initials\":\"HM\",\"hat\":\"felt\""));
  EXPECT_EQ(unknown.code, ErrorCode::unknown_key);
  EXPECT_EQ(unknown.field, "tables.person[0].hat");
}

TEST_F(DumpTest, ContradictionsAreFound) {
  EXPECT_EQ(refused(with("\"name\":\"Hedda Morn\"", "\"name\":\"Hedda Moon\"")).code, ErrorCode::inconsistent) << "a cell";
  EXPECT_EQ(refused(with("\"gesture\":\"receive\"", "\"gesture\":\"deceive\"")).code, ErrorCode::inconsistent) << "a hash";
  EXPECT_EQ(refused(with("\"client_id\":1", "\"client_id\":999")).code, ErrorCode::inconsistent) << "a reference";
  EXPECT_EQ(refused(with("\"number\":\"S000002\"", "\"number\":\"S000001\"")).code, ErrorCode::inconsistent) << "a number twice";
}

// A dump cut short or with one byte changed never crashes, and is never taken for the notebook it came from.
TEST_F(DumpTest, DamagedTextNeverPasses) {
  std::mt19937 dice(5);
  int refusals = 0;
  constexpr int rounds = 120;
  for (int round = 0; round < rounds; ++round) {
    std::string text = sample();
    const std::size_t at = dice() % text.size();
    if (round % 3 == 0)
      text.resize(at);
    else
      text[at] = static_cast<char>(text[at] ^ (1u << (dice() % 8)));
    if (const auto outcome = restore_notebook(text, target); outcome.ok()) {
      EXPECT_EQ(dump_of(target), sample()) << "a change that JSON does not see, at byte " << at;
      fs::remove(target);
    } else {
      ++refusals;
    }
    ASSERT_TRUE(fs::is_empty(folder.path()));
  }
  EXPECT_GT(refusals, rounds * 9 / 10);
}

TEST_F(DumpTest, SinkCanEndIt) {
  FileNotebook notebook;
  const auto outcome = dump_notebook(*notebook.connection, [](std::string_view) -> Result<void> {
    return Error{ErrorCode::disk_full, "", "no room", {}};
  });
  EXPECT_EQ(outcome.error().code, ErrorCode::disk_full);
  EXPECT_TRUE(notebook.journal
                  ->record("add client",
                           [](ChangeSet& set) -> Result<void> {
                             PRILLBOOK_TRY(set.make(Entity::client, {{fields::client::name, "A"}}));
                             return {};
                           })
                  .ok())
      << "no read lock stays behind";
}

}  // namespace
}  // namespace prillbook::exchange
