// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/attachments/attachments.h"

#include <gmock/gmock.h>
#include <rapidcheck/gtest.h>

#include "core/exchange/notebook_dump.h"
#include "core/history/contents.h"
#include "core/history/fields.h"
#include "core/history/rows.h"
#include "core/lab/settings.h"
#include "core/upkeep/check.h"
#include "tests/support/records.h"

namespace prillbook::attachments {
namespace {

using testing::ElementsAre;
using testing::HasSubstr;

struct Photographs : testing::Test, testing_support::LabWithSample<testing_support::FileNotebook> {
  Result<AttachmentId> add(const std::string& bytes, Owner owner = {}) {
    NewAttachment fresh;
    fresh.owner = owner == Owner{} ? Owner{sample, {}} : owner;
    fresh.picture = {bytes, 40, 30, false};
    fresh.caption = "the torn bag";
    fresh.kind = "bag";
    fresh.original_name = "dsc 0017.jpg";
    fresh.taken_at = *parse_iso("2026-05-04T08:50:00.000+02:00");
    return attach(book, fresh);
  }
  std::vector<std::string> faults() {
    std::vector<std::string> told;
    const auto report = upkeep::check_notebook(*connection);
    EXPECT_TRUE(report.ok());
    if (report.ok())
      for (const store::Fault& fault : report->faults) told.push_back(fault.where + ": " + fault.what);
    return told;
  }
  void tamper(const std::string& sql) { ASSERT_TRUE(connection->run_derived(sql, {}).ok()) << sql; }
  // Something that no program of ours would do, with the schema put back.
  void tamper_with_contents(const std::string& sql) {
    std::vector<std::string> triggers;
    ASSERT_TRUE(connection
                    ->rows_derived("SELECT sql FROM sqlite_schema WHERE type = 'trigger' AND tbl_name = 'content'", {},
                                   [&](const store::Row& row) {
                                     triggers.push_back(row.text(0));
                                     return true;
                                   })
                    .ok());
    tamper("PRAGMA foreign_keys = OFF");
    tamper("DROP TRIGGER content_is_not_rewritten");
    tamper("DROP TRIGGER content_is_not_erased");
    tamper(sql);
    for (const std::string& text : triggers) tamper(text);
  }
};

TEST_F(Photographs, AreKeptWithWhatIsKnownOfThem) {
  const auto id = add("pixels");
  ASSERT_TRUE(id.ok()) << id.error().detail;
  const auto list = attachments_of(*connection, {sample, {}}).value();
  ASSERT_EQ(list.size(), 1u);
  EXPECT_EQ(list[0].id, *id);
  EXPECT_EQ(list[0].caption, "the torn bag");
  EXPECT_EQ(list[0].kind, "bag");
  EXPECT_EQ(list[0].original_name, "dsc 0017.jpg");
  EXPECT_EQ(list[0].byte_count, 6);
  EXPECT_EQ(to_iso(*list[0].taken_at), "2026-05-04T08:50:00.000+02:00");
  EXPECT_EQ(bytes_of(*connection, list[0]).value(), "pixels");
  EXPECT_TRUE(attachments_of(*connection, {{}, consignment})->empty());
  EXPECT_THAT(faults(), ElementsAre());
}

TEST_F(Photographs, TheHistoryHoldsTheHashAndNotTheBytes) {
  const std::string bytes = "bytes that must not stand in the history";
  const auto id = add(bytes).value();
  const auto rows = history::record_history(*connection, history::Entity::attachment, id.value).value();
  ASSERT_EQ(rows.size(), 1u);
  const std::string made = std::get<std::string>(rows[0].new_value);
  EXPECT_THAT(made, HasSubstr(history::hex_digest(bytes)));
  EXPECT_THAT(made, testing::Not(HasSubstr("must not stand")));
}

// BLAKE2b-256 of nothing, as RFC 7693's reference code gives it (from memory).
TEST(Contents, TheHashIsBlake2b) {
  EXPECT_EQ(history::hex_digest(""), "0e5751c026e543b2e8ab2eb06099daa1d1e5df47778f7787faab45cdf12fe3a8");
}

TEST_F(Photographs, TheSameBytesStandOnce) {
  ASSERT_TRUE(add("pixels").ok());
  ASSERT_TRUE(add("pixels", {{}, consignment}).ok());
  std::int64_t count = 0;
  ASSERT_TRUE(history::each_content(*connection, [&](const std::string&, const std::string&) -> Result<void> {
                ++count;
                return {};
              }).ok());
  EXPECT_EQ(count, 1);
  EXPECT_EQ(add("pixels").error().code, ErrorCode::already_exists) << "twice with one owner is a slip";
}

TEST_F(Photographs, StrikingOutKeepsTheBytesAndNeedsAReason) {
  const auto id = add("pixels").value();
  EXPECT_EQ(strike(book, id, "  ").error().code, ErrorCode::missing_key);
  ASSERT_TRUE(strike(book, id, "another client's bag").ok());
  EXPECT_TRUE(attachments_of(*connection, {sample, {}})->empty());
  const auto rows = history::record_history(*connection, history::Entity::attachment, id.value).value();
  EXPECT_EQ(rows.back().why, "another client's bag");
  EXPECT_THAT(faults(), ElementsAre());
  ASSERT_TRUE(book.undo().ok());
  EXPECT_EQ(bytes_of(*connection, attachments_of(*connection, {sample, {}})->at(0)).value(), "pixels");
  ASSERT_TRUE(strike(book, id, "it is").ok());
  EXPECT_TRUE(add("pixels").ok()) << "what was struck out can come again";
}

TEST_F(Photographs, TakingBackTheAddingStrikesItOut) {
  ASSERT_TRUE(add("pixels").ok());
  ASSERT_TRUE(book.undo().ok());
  EXPECT_TRUE(attachments_of(*connection, {sample, {}})->empty());
  EXPECT_THAT(faults(), ElementsAre());
}

TEST_F(Photographs, NeedAnOwnerPixelsAndBytes) {
  NewAttachment fresh;
  fresh.picture = {"x", 1, 1, false};
  EXPECT_EQ(attach(book, fresh).error().code, ErrorCode::inconsistent);
  fresh.owner = {sample, consignment};
  EXPECT_EQ(attach(book, fresh).error().code, ErrorCode::inconsistent);
  fresh.owner = {SampleId{99}, {}};
  EXPECT_EQ(attach(book, fresh).error().code, ErrorCode::inconsistent);
  fresh.owner = {sample, {}};
  fresh.picture.width = 0;
  EXPECT_EQ(attach(book, fresh).error().code, ErrorCode::out_of_range);
  fresh.picture = {"", 1, 1, false};
  EXPECT_EQ(attach(book, fresh).error().code, ErrorCode::missing_key);
  fresh.picture = {"x", 1, 1, false};
  fresh.kind = "holiday";
  EXPECT_EQ(attach(book, fresh).error().code, ErrorCode::out_of_range);
  EXPECT_THAT(faults(), ElementsAre()) << "a refused photograph leaves no bytes behind";
}

TEST_F(Photographs, TooManyBytesAreRefusedWithTheLimit) {
  const auto refused = add(std::string(history::most_content_bytes + 1, 'x'));
  ASSERT_FALSE(refused.ok());
  EXPECT_EQ(refused.error().code, ErrorCode::out_of_range);
  EXPECT_THAT(refused.error().arguments, ElementsAre("16.8 MB", "16.8 MB"));
  EXPECT_TRUE(add(std::string(history::most_content_bytes, 'x')).ok());
}

TEST_F(Photographs, AChangedByteIsFound) {
  const auto id = add("pixels").value();
  tamper_with_contents("UPDATE content SET bytes = CAST('pixelz' AS BLOB)");
  EXPECT_THAT(faults(), ElementsAre(HasSubstr("its bytes do not fit its hash")));
  EXPECT_EQ(bytes_of(*connection, attachment(*connection, id).value()).error().code, ErrorCode::damaged);
}

TEST_F(Photographs, MissingBytesAreFound) {
  const auto id = add("pixels").value();
  tamper_with_contents("DELETE FROM content");
  EXPECT_THAT(faults(), testing::Contains(HasSubstr("attachment 1: its bytes, ")));
  EXPECT_EQ(bytes_of(*connection, attachment(*connection, id).value()).error().code, ErrorCode::not_found);
}

TEST_F(Photographs, BytesOfNobodyAreFound) {
  ASSERT_TRUE(connection
                  ->transaction([&]() -> Result<void> {
                    PRILLBOOK_TRY(history::keep_content(*connection, "smuggled"));
                    return {};
                  })
                  .ok());
  EXPECT_THAT(faults(), ElementsAre(HasSubstr("belongs to no attachment")));
}

TEST_F(Photographs, ContentsAreNeverChangedNorErased) {
  ASSERT_TRUE(add("pixels").ok());
  EXPECT_FALSE(connection->run_derived("UPDATE content SET bytes = CAST('x' AS BLOB)", {}).ok());
  EXPECT_FALSE(connection->run_derived("DELETE FROM content", {}).ok());
}

TEST_F(Photographs, ComeBackFromADump) {
  std::string bytes = "pixels";
  for (int i = 0; i < 256; ++i) bytes += char(i);
  ASSERT_TRUE(add(bytes).ok());
  ASSERT_TRUE(add("other pixels", {{}, consignment}).ok());
  const std::string dump = exchange::dump_notebook(*connection).value();
  const std::string restored_path = folder.file("restored.prillbook");
  const auto restored = exchange::restore_notebook(dump, restored_path);
  ASSERT_TRUE(restored.ok()) << restored.error().detail;
  const auto copy = store::Connection::open(restored_path, store::Access::read_only).value();
  EXPECT_EQ(exchange::dump_notebook(*copy).value(), dump);
  EXPECT_EQ(bytes_of(*copy, attachments_of(*copy, {sample, {}})->at(0)).value(), bytes);
}

struct Spoilt {
  const char* what;
  const char* change;
  const char* with;
  ErrorCode code;
};

class SpoiltDump : public Photographs, public testing::WithParamInterface<Spoilt> {};

TEST_P(SpoiltDump, IsRefused) {
  ASSERT_TRUE(add("pixels").ok());
  std::string dump = exchange::dump_notebook(*connection).value();
  const std::string change = GetParam().change;
  const auto at = dump.find(change);
  ASSERT_NE(at, std::string::npos) << GetParam().what;
  dump.replace(at, change.size(), GetParam().with);
  const std::string restored_path = folder.file("restored.prillbook");
  const auto restored = exchange::restore_notebook(dump, restored_path);
  ASSERT_FALSE(restored.ok()) << GetParam().what;
  EXPECT_EQ(restored.error().code, GetParam().code) << GetParam().what << ": " << restored.error().detail;
  EXPECT_FALSE(std::filesystem::exists(restored_path));
}

// "pixels" in base64 (RFC 4648) is cGl4ZWxz.
INSTANTIATE_TEST_SUITE_P(EachWay, SpoiltDump,
                         testing::Values(Spoilt{"no base64", "cGl4ZWxz", "cGl4!Wxz", ErrorCode::wrong_type},
                                         Spoilt{"half a group", "cGl4ZWxz", "cGl4ZW", ErrorCode::wrong_type},
                                         Spoilt{"other bytes", "cGl4ZWxz", "cGl4ZWx6", ErrorCode::inconsistent},
                                         Spoilt{"no bytes", "cGl4ZWxz", "", ErrorCode::missing_key},
                                         Spoilt{"a number", "\"cGl4ZWxz\"", "7", ErrorCode::wrong_type},
                                         Spoilt{"another key", "\"bytes\":", "\"bits\":", ErrorCode::unknown_key},
                                         Spoilt{"not there", "\"contents\":[", "\"contents\":[],\"more\":[",
                                                ErrorCode::wrong_type}));

TEST_F(Photographs, ADumpWithoutItsContentsIsRefused) {
  ASSERT_TRUE(add("pixels").ok());
  std::string dump = exchange::dump_notebook(*connection).value();
  const auto from = dump.find("\"contents\":["), to = dump.find("\"history\":[");
  dump.erase(from, to - from);
  EXPECT_EQ(exchange::restore_notebook(dump, folder.file("restored.prillbook")).error().code, ErrorCode::inconsistent);
}

TEST(OlderNotebook, HasNoPhotographsAndSaysSo) {
  const auto old = store::Connection::in_memory(1).value();
  EXPECT_TRUE(attachments_of(*old, {SampleId{1}, {}})->empty());
  EXPECT_FALSE(history::holds_contents(*old).value());
  EXPECT_EQ(exchange::dump_notebook(*old)->find("contents"), std::string::npos);
}

TEST_F(Photographs, TheLabSaysHowTheyAreKept) {
  EXPECT_EQ(wish(*connection)->long_side_px, 2000);
  EXPECT_FALSE(wish(*connection)->keep_original);
  ASSERT_TRUE(lab::set_setting(book, "photographs.keep_original", "Yes").ok());
  ASSERT_TRUE(lab::set_setting(book, "photographs.long_side_px", "1200").ok());
  EXPECT_TRUE(wish(*connection)->keep_original);
  EXPECT_EQ(wish(*connection)->long_side_px, 1200);
  EXPECT_FALSE(lab::set_setting(book, "photographs.keep_original", "perhaps").ok());
}

// RFC 4648, section 10: the test vectors.
TEST(Base64, IsThatOfTheStandard) {
  const std::pair<const char*, const char*> vectors[] = {{"", ""},
                                                         {"f", "Zg=="},
                                                         {"fo", "Zm8="},
                                                         {"foo", "Zm9v"},
                                                         {"foob", "Zm9vYg=="},
                                                         {"fooba", "Zm9vYmE="},
                                                         {"foobar", "Zm9vYmFy"}};
  for (const auto& [bytes, text] : vectors) {
    EXPECT_EQ(history::base64(bytes), text);
    EXPECT_EQ(history::bytes_of_base64(text), bytes);
  }
  for (const char* text : {"Zg", "Zg=", "Z", "Zm8=\n", "Zm 8=", "Zm9v====", "Zh==", "_-8="})
    EXPECT_FALSE(history::bytes_of_base64(text)) << text;
}

RC_GTEST_PROP(Base64, GivesBackTheBytes, (const std::string& bytes)) {
  RC_ASSERT(history::bytes_of_base64(history::base64(bytes)) == bytes);
}

}  // namespace
}  // namespace prillbook::attachments
