// SPDX-License-Identifier: GPL-3.0-or-later
// Notebooks damaged byte by byte: each damage is found by the check, or lies where nothing is kept; and what reads of a
// damaged notebook is saved into a sound one. PRILLBOOK_FLIPS sets how many bytes are flipped; the target flips_long
// flips two thousand and saves what reads of each.
#include "core/upkeep/salvage.h"

#include <SQLiteCpp/Database.h>
#include <SQLiteCpp/Statement.h>
#include <fmt/format.h>
#include <gmock/gmock.h>

#include <charconv>
#include <cstdlib>
#include <map>
#include <random>
#include <sstream>

#include "core/exchange/notebook_dump.h"
#include "core/store/backup.h"
#include "core/upkeep/check.h"
#include "core/upkeep/keep.h"
#include "tests/reliability/day_on_disk.h"
#include "tests/support/generator.h"

namespace prillbook {
namespace {

using store::Access;
using store::Connection;
using testing_support::file_text;

int flips_wanted(int usual) {
  const char* text = std::getenv("PRILLBOOK_FLIPS");
  if (text) std::from_chars(text, text + std::string_view(text).size(), usual);
  return usual;
}

class SalvageTest : public testing_support::DayOnDisk {
 protected:
  std::string saved = folder.file("saved.prillbook");

  Result<upkeep::Salvaged> save() {
    store::discard(saved);
    return upkeep::salvage(path, saved, {*parse_iso("2026-05-04T18:00+02:00")});
  }
  std::string dump_of(const std::string& file) {
    const auto connection = Connection::open(file, Access::read_only);
    if (!connection) return connection.error().detail;
    const auto text = exchange::dump_notebook(**connection);
    return text ? *text : text.error().detail;
  }
  void run_raw(const std::string& sql) {
    SQLite::Database raw(path, SQLite::OPEN_READWRITE);
    raw.exec("DROP TRIGGER history_is_not_rewritten; DROP TRIGGER history_is_not_erased;");
    raw.exec(sql);
  }
  // A byte that stands in use: most of a small notebook is the unused room of its pages, all zero.
  std::size_t used_byte(std::mt19937& dice) {
    std::size_t at = dice() % bytes.size();
    while (bytes[at] == 0) at = dice() % bytes.size();
    return at;
  }
};

// The pages that hold the schema of a sound notebook.
std::vector<std::size_t> schema_pages(const std::string& path) {
  SQLite::Database raw(path, SQLite::OPEN_READONLY);
  SQLite::Statement statement(raw, "SELECT pageno FROM dbstat WHERE name = 'sqlite_schema' ORDER BY pageno");
  std::vector<std::size_t> pages;
  while (statement.executeStep()) pages.push_back(std::size_t(statement.getColumn(0).getInt64()));
  return pages;
}

// The same bytes with this page, but for the head of the file, full of rubbish.
std::string with_rubbish(std::string text, std::size_t page, std::mt19937& dice) {
  for (std::size_t i = page == 1 ? 100 : 0; i < 4096; ++i) text[(page - 1) * 4096 + i] = static_cast<char>(dice());
  return text;
}

std::string told(const upkeep::Salvaged& salvaged) {
  std::string text;
  for (const store::Fault& fault : salvaged.left) text += fault.where + ": " + fault.what + "\n";
  return text;
}

TEST_F(SalvageTest, SoundNotebookComesOutAsItWas) {
  const auto salvaged = save();
  ASSERT_TRUE(salvaged.ok()) << salvaged.error().detail;
  EXPECT_TRUE(salvaged->whole()) << told(*salvaged);
  EXPECT_EQ(dump_of(saved), dump);
  EXPECT_TRUE(file_text(path) == bytes) << "what is salvaged from is left as it is";
  EXPECT_EQ(upkeep::salvage(path, saved, {}).error().code, ErrorCode::already_exists);
}

TEST_F(SalvageTest, DamagedTableIsTakenFromTheHistory) {
  run_raw("UPDATE sample SET mark = 'something else' WHERE id = 1");
  const auto salvaged = save();
  ASSERT_TRUE(salvaged.ok()) << salvaged.error().detail;
  EXPECT_EQ(dump_of(saved), dump);
  EXPECT_THAT(told(*salvaged), testing::HasSubstr("sample 1.mark: the table was damaged"));
}

TEST_F(SalvageTest, DamagedEntryIsTakenFromTheTable) {
  run_raw("UPDATE history SET new = '{\"2\":\"garbled' WHERE field = 0 AND entity = 6 AND record = 1");
  const auto salvaged = save();
  ASSERT_TRUE(salvaged.ok()) << salvaged.error().detail;
  EXPECT_EQ(salvaged->lost_entries, 1);
  EXPECT_EQ(salvaged->lost_records, 0) << told(*salvaged);
  EXPECT_THAT(told(*salvaged), testing::HasSubstr("sample 1: taken from its table"));
  const auto report = upkeep::check_notebook(saved);
  ASSERT_TRUE(report.ok());
  EXPECT_TRUE(report->sound());
}

TEST_F(SalvageTest, DamagedHashLosesNothing) {
  run_raw("UPDATE history SET hash = zeroblob(32) WHERE id = 3");
  const auto salvaged = save();
  ASSERT_TRUE(salvaged.ok()) << salvaged.error().detail;
  EXPECT_EQ(salvaged->lost_entries, 0) << told(*salvaged);
  EXPECT_EQ(dump_of(saved), dump) << "the next entry proves it";
}

TEST_F(SalvageTest, LostEntriesAreNamed) {
  run_raw("DELETE FROM history WHERE id IN (4, 5)");
  const auto salvaged = save();
  ASSERT_TRUE(salvaged.ok()) << salvaged.error().detail;
  EXPECT_EQ(salvaged->lost_entries, 2);
  EXPECT_THAT(told(*salvaged), testing::HasSubstr("history 4: 2 entries do not read"));
  EXPECT_TRUE(upkeep::check_notebook(saved)->sound());
}

TEST_F(SalvageTest, HeadOfTheFileIsMended) {
  for (const std::size_t at : {0u, 16u, 28u, 60u, 68u}) {
    std::string text = bytes;
    text[at] = static_cast<char>(~text[at]);
    put(text);
    const auto salvaged = save();
    ASSERT_TRUE(salvaged.ok()) << at << " " << salvaged.error().detail;
    EXPECT_EQ(dump_of(saved), dump) << at;
  }
}

// Where each table lies stands in these pages; nothing else in the file says so.
TEST_F(SalvageTest, APageOfTheSchemaIsPutBack) {
  std::mt19937 dice(29);
  const auto pages = schema_pages(path);
  ASSERT_GT(pages.size(), 8u);
  for (const std::size_t page : pages) {
    put(with_rubbish(bytes, page, dice));
    const auto salvaged = save();
    ASSERT_TRUE(salvaged.ok()) << page << " " << salvaged.error().detail;
    EXPECT_THAT(told(*salvaged), testing::HasSubstr("schema: 1 of its pages")) << page;
    EXPECT_EQ(dump_of(saved), dump) << page;
  }
}

// A notebook that was migrated has tables where a new one of its version has none: no page is guessed.
TEST_F(SalvageTest, APageOfAMigratedSchemaIsNotGuessed) {
  store::discard(path);
  ASSERT_TRUE(exchange::restore_notebook(file_text(PRILLBOOK_SOURCE_DIR "/tests/notebooks/v9.json"), path).ok());
  ASSERT_TRUE(upkeep::open_migrated(path).ok());
  bytes = file_text(path);
  dump = dump_of(path);
  std::mt19937 dice(30);
  int refused = 0;
  const auto pages = schema_pages(path);
  for (const std::size_t page : pages) {
    put(with_rubbish(bytes, page, dice));
    const auto salvaged = save();
    refused += !salvaged.ok();
    if (salvaged.ok() && salvaged->whole()) EXPECT_EQ(dump_of(saved), dump) << page;
  }
  EXPECT_GT(refused, 0);
  fmt::print("  {} of {} pages refused\n", refused, pages.size());
}

TEST_F(SalvageTest, WhatIsNoNotebookIsRefused) {
  put(std::string(20'000, 'x'));
  const auto none = save();
  ASSERT_FALSE(none.ok());
  put("short");
  EXPECT_EQ(save().error().code, ErrorCode::not_a_notebook);
  EXPECT_EQ(upkeep::salvage(folder.file("gone"), saved, {}).error().code, ErrorCode::not_found);
  EXPECT_FALSE(std::filesystem::exists(saved));
  EXPECT_FALSE(std::filesystem::exists(saved + ".part"));
}

// Every byte flip is found, or lies where nothing is kept; none is missed.
TEST_F(SalvageTest, FlippedBytesAreFoundOrHarmless) {
  std::mt19937 dice(26);
  const int rounds = flips_wanted(40);
  int found = 0, harmless = 0, missed = 0;
  for (int round = 0; round < rounds; ++round) {
    std::string text = bytes;
    const std::size_t at = used_byte(dice);
    text[at] = static_cast<char>(text[at] ^ (1 + int(dice() % 255)));
    put(text);
    const auto report = upkeep::check_notebook(path);
    if (!report || !report->sound()) {
      ++found;
    } else if (dump_of(path) == dump) {
      ++harmless;
    } else {
      ++missed;
      ADD_FAILURE() << "byte " << at << " of page " << at / 4096 + 1 << " was missed";
    }
  }
  EXPECT_GT(found, rounds / 4);
  fmt::print("  {} flipped bytes: {} found, {} harmless, {} missed\n", rounds, found, harmless, missed);
}

// Whatever byte is flipped, a sound notebook comes of it; what is not told is as it was.
TEST_F(SalvageTest, FlippedBytesAreSaved) {
  std::mt19937 dice(27);
  const int rounds = flips_wanted(8);
  int same = 0, less = 0, refused = 0;
  for (int round = 0; round < rounds; ++round) {
    std::string text = bytes;
    const std::size_t at = used_byte(dice);
    text[at] = static_cast<char>(text[at] ^ (1 + int(dice() % 255)));
    put(text);
    const auto salvaged = save();
    if (!salvaged) {
      ++refused;
      EXPECT_FALSE(std::filesystem::exists(saved)) << at;
      fmt::print("  refused, byte {} of page {}: {}\n", at % 4096, at / 4096 + 1, salvaged.error().detail);
      continue;
    }
    if (dump_of(saved) == dump) {
      ++same;
      continue;
    }
    ++less;
    EXPECT_FALSE(salvaged->whole()) << at << ": what is lost is told";
    EXPECT_EQ(salvaged->lost_records, 0) << at << "\n" << told(*salvaged);
  }
  EXPECT_GT(same, rounds / 3);
  fmt::print("  {} flipped bytes: {} saved as it was, {} with a few entries less, {} refused\n", rounds, same, less, refused);
}

TEST_F(SalvageTest, WholePagesOfRubbishLeaveTheRest) {
  std::mt19937 dice(28);
  int saved_some = 0;
  for (std::size_t page = 1; page < bytes.size() / 4096; page += 41) {
    std::string text = bytes;
    for (std::size_t i = 0; i < 4096; ++i) text[page * 4096 + i] = static_cast<char>(dice());
    put(text);
    const auto salvaged = save();
    if (!salvaged) continue;
    ++saved_some;
    ASSERT_TRUE(upkeep::check_notebook(saved)->sound()) << page;
  }
  EXPECT_GT(saved_some, int(bytes.size() / 4096 / 41) * 3 / 4);
}

}  // namespace
}  // namespace prillbook
