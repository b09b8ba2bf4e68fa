// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/exchange/csv.h"

#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>
#include <sys/resource.h>

#include <csignal>
#include <fstream>
#include <sstream>

#include "core/exchange/columns.h"
#include "core/store/part_file.h"
#include "core/tables/table.h"
#include "tests/support/summary_bench.h"

namespace prillbook::exchange {
namespace {

using testing_support::SummaryBench;

std::string text_of(const std::string& path) {
  std::ifstream file(path, std::ios::binary);
  return {std::istreambuf_iterator<char>(file), {}};
}

// A reader of RFC 4180 written from its grammar, apart from the writer.
std::vector<std::vector<std::string>> read_csv(const std::string& text) {
  std::vector<std::vector<std::string>> records;
  std::size_t i = 0;
  while (i < text.size()) {
    std::vector<std::string> record(1);
    for (;;) {
      if (i < text.size() && text[i] == '"') {
        for (++i; i < text.size(); ++i) {
          if (text[i] == '"' && (i + 1 >= text.size() || text[i + 1] != '"')) break;
          if (text[i] == '"') ++i;
          record.back() += text[i];
        }
        ++i;
      } else {
        while (i < text.size() && text[i] != ',' && text[i] != '\r') record.back() += text[i++];
      }
      if (i >= text.size() || text[i] != ',') break;
      ++i;
      record.emplace_back();
    }
    EXPECT_EQ(text.substr(i, 2), "\r\n");
    i += 2;
    records.push_back(std::move(record));
  }
  return records;
}

// RFC 4180, section 2, examples of rules 1, 6 and 7 (from memory); fields that need no quotes are written without.
TEST(CsvTest, WritesTheExamplesOfRfc4180) {
  EXPECT_EQ(csv_record(std::vector<std::string>{"aaa", "bbb", "ccc"}), "aaa,bbb,ccc\r\n");
  EXPECT_EQ(csv_record(std::vector<std::string>{"aaa", "b\r\nbb", "ccc"}), "aaa,\"b\r\nbb\",ccc\r\n");
  EXPECT_EQ(csv_record(std::vector<std::string>{"aaa", "b\"bb", "ccc"}), "aaa,\"b\"\"bb\",ccc\r\n");
}

RC_GTEST_PROP(CsvProperty, AnyFieldsComeBack, (std::vector<std::string> fields)) {
  RC_PRE(!fields.empty());
  for (const std::string& field : fields) RC_PRE(field.find('\0') == std::string::npos);
  const auto records = read_csv(csv_record(fields));
  RC_ASSERT(records.size() == 1u);
  RC_ASSERT(records[0] == fields);
}

// Common practice, no source: what a spreadsheet takes for a formula begins with one of these.
TEST(CsvTest, TextsThatASpreadsheetWouldRunGetAnApostrophe) {
  for (const char* text : {"=1+1", "+49 1", "-2", "@sum", "\tx", "\rx"}) EXPECT_EQ(not_run(text), "'" + std::string(text));
  for (const char* text : {"", "Ridge", "2 = 2", "'quoted"}) EXPECT_EQ(not_run(text), text);
}

struct CsvFileTest : testing::Test, SummaryBench {
  std::vector<std::vector<std::string>> table() { return read_csv(csv_text(report())); }
  static std::string cell(const std::vector<std::vector<std::string>>& table, std::size_t row, std::string_view name) {
    for (std::size_t i = 0; i < table[0].size(); ++i)
      if (table[0][i] == name) return table[row][i];
    ADD_FAILURE() << "no column " << name;
    return "";
  }
};

TEST_F(CsvFileTest, ALineForEachTestAndOneForTheMean) {
  pan_with_gap();
  const auto lines = table();
  ASSERT_EQ(lines.size(), 4u);
  for (const auto& line : lines) EXPECT_EQ(line.size(), summary_columns().size());
  EXPECT_EQ(cell(lines, 1, "kind"), "pan_test");
  EXPECT_EQ(cell(lines, 1, "gold_g_t"), "16.5");
  EXPECT_EQ(cell(lines, 1, "bead_mg"), "22.000");
  EXPECT_EQ(cell(lines, 2, "kind"), "charge");
  EXPECT_EQ(cell(lines, 2, "fineness_permil"), "500");
  EXPECT_EQ(cell(lines, 3, "kind"), "mean_of_charges");
  EXPECT_EQ(cell(lines, 3, "charges_in_mean"), "1");
  EXPECT_EQ(cell(lines, 3, "verdict"), "gold_left_behind");
  EXPECT_EQ(cell(lines, 1, "verdict"), "");
}

TEST_F(CsvFileTest, EveryColumnIsDescribed) {
  const std::string description = text_of(PRILLBOOK_SOURCE_DIR "/docs/exports.md");
  for (const SummaryColumn& column : summary_columns())
    EXPECT_NE(description.find("`" + std::string(column.name) + "`"), std::string::npos) << column.name;
}

TEST_F(CsvFileTest, WhatWasNotMeasuredIsEmptyAndALimitFillsTheHighEnd) {
  const auto charge = fire("30 g");
  ASSERT_TRUE(weighing::set_none_seen(book, charge.bead, true).ok());
  const auto lines = table();
  EXPECT_EQ(cell(lines, 1, "gold_g_t"), "");
  EXPECT_EQ(cell(lines, 1, "gold_g_t_lo"), "");
  EXPECT_NE(cell(lines, 1, "gold_g_t_hi"), "");
  EXPECT_EQ(cell(lines, 1, "fineness_permil"), "");
}

TEST_F(CsvFileTest, ACommaLabStillWritesPoints) {
  pan_with_gap();
  std::vector<summary::SummarySample> samples{summarised()};
  auto comma = issue();
  comma.say = DecimalMark::comma;
  const auto lines = read_csv(csv_text(summary::build_report(samples, comma)));
  EXPECT_EQ(cell(lines, 1, "gold_g_t"), "16.5");
}

TEST_F(CsvFileTest, AMarkThatLooksLikeAFormulaIsText) {
  sample = log_sample("=HYPERLINK(\"http://x.example\")", "1 kg");
  const auto lines = table();
  EXPECT_EQ(cell(lines, 1, "mark"), "'=HYPERLINK(\"http://x.example\")");
}

TEST_F(CsvFileTest, AFolderThatIsNotThereAndOneThatIsNoFolder) {
  testing_support::TempFolder folder;
  EXPECT_EQ(write_csv(report(), folder.file("none/a.csv")).error().code, ErrorCode::not_found);
  ASSERT_TRUE(write_csv(report(), folder.file("a.csv")).ok());
  EXPECT_EQ(write_csv(report(), folder.file("a.csv") + "/b.csv").error().code, ErrorCode::not_found);
  EXPECT_EQ(write_csv(report(), folder.file("a.csv") + "/b.csv").error().arguments,
            std::vector<std::string>{folder.file("a.csv") + "/b.csv"});
}

// A limit on the size of files stands for a full disk: write() fails half way.
class SmallDisk {
 public:
  explicit SmallDisk(rlim_t bytes) {
    before_signal_ = std::signal(SIGXFSZ, SIG_IGN);
    getrlimit(RLIMIT_FSIZE, &before_);
    const rlimit limit{bytes, before_.rlim_max};
    setrlimit(RLIMIT_FSIZE, &limit);
  }
  ~SmallDisk() {
    setrlimit(RLIMIT_FSIZE, &before_);
    std::signal(SIGXFSZ, before_signal_);
  }

 private:
  rlimit before_{};
  void (*before_signal_)(int);
};

TEST_F(CsvFileTest, AFullDiskLeavesTheOldFileAndNoPart) {
  testing_support::TempFolder folder;
  const std::string path = folder.file("a.csv");
  pan_with_gap();
  const summary::Report full = report();
  ASSERT_TRUE(store::write_whole(path, "old").ok());
  ErrorCode code{};
  {
    const SmallDisk small(100);
    const auto written = write_csv(full, path);
    code = written.ok() ? ErrorCode::conflict : written.error().code;
  }
  EXPECT_EQ(code, ErrorCode::disk_full);
  EXPECT_EQ(text_of(path), "old");
  EXPECT_FALSE(std::filesystem::exists(store::part_path(path)));
}

// Whatever a table holds, our reader finds in it what our writer wrote; only a row of one empty cell is a blank line.
RC_GTEST_PROP(Csv, WhatIsWrittenIsReadBack, ()) {
  using Rows = std::vector<std::vector<std::string>>;
  const auto cell = rc::gen::container<std::string>(rc::gen::weightedOneOf<char>(
      {{2, rc::gen::element('"', ',', '\r', '\n', ' ', '=', '\'')}, {3, rc::gen::arbitrary<char>()}}));
  const auto rows = *rc::gen::container<Rows>(rc::gen::nonEmpty(rc::gen::container<std::vector<std::string>>(cell)));
  std::string text;
  Rows wanted;
  for (const auto& row : rows) {
    text += csv_record(row);
    if (row != std::vector<std::string>{""}) wanted.push_back(row);
  }
  const auto table = tables::parse_table(text, ',');
  RC_ASSERT(table.ok());
  Rows found;
  for (const tables::TableRow& row : *table) found.push_back(row.cells);
  RC_ASSERT(found == wanted);
}

}  // namespace
}  // namespace prillbook::exchange
