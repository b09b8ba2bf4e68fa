// SPDX-License-Identifier: GPL-3.0-or-later
// docs/notebook-file.md against the catalogue: every table and column with its meaning, and no others.
#include <fmt/format.h>
#include <gtest/gtest.h>

#include <sstream>

#include "core/exchange/notebook_dump.h"
#include "core/history/catalogue.h"
#include "core/history/fields.h"
#include "core/history/record_sql.h"
#include "core/readings/reading.h"
#include "core/store/structure.h"
#include "tests/support/files.h"

namespace prillbook::exchange {
namespace {

using history::Field;
using history::FieldKind;

const std::string& document() {
  static const std::string text = testing_support::file_text(PRILLBOOK_SOURCE_DIR "/docs/notebook-file.md");
  return text;
}

std::string kind_of(const Field& field) {
  switch (field.kind) {
    case FieldKind::text: return "text";
    case FieldKind::whole: return "whole number";
    case FieldKind::flag: return "0 or 1";
    case FieldKind::choice: return fmt::format("one of {}", fmt::join(field.choices, ", "));
    case FieldKind::instant: return "date and time";
    case FieldKind::reading: return fmt::format("reading in {}", readings::base_unit(*field.measure));
    case FieldKind::reference: return fmt::format("id of a {}", history::spec_of(*field.refers).table);
  }
  return "";
}

std::string table_of(const history::EntitySpec& entity) {
  std::string text = fmt::format("### `{}` ({})\n\n{}.\n\n| code | column | holds | meaning |\n|---|---|---|---|\n", entity.table,
                                 static_cast<std::int64_t>(entity.entity), entity.meaning);
  for (const Field* field : entity.fields)
    text += fmt::format("| {} | `{}` | {}{} | {} |\n", field->code, field->column, kind_of(*field),
                        field->required ? ", needed" : "", field->meaning);
  return text;
}

TEST(NotebookFileDocument, DescribesEveryTable) {
  for (const history::EntitySpec& entity : history::catalogue())
    EXPECT_NE(document().find("\n" + table_of(entity) + "\n"), std::string::npos) << table_of(entity);
}

TEST(NotebookFileDocument, DescribesNoOtherTable) {
  std::istringstream lines(document());
  for (std::string line; std::getline(lines, line);) {
    if (!line.starts_with("### `")) continue;
    const std::string name = line.substr(5, line.find('`', 5) - 5);
    EXPECT_TRUE(name == "history" || name == "content" || history::find_entity(std::string_view(name))) << name;
  }
}

TEST(NotebookFileDocument, DescribesEveryColumnOfTheHistory) {
  const auto connection = store::Connection::in_memory().value();
  const auto start = document().find("### `history`");
  ASSERT_NE(start, std::string::npos);
  std::istringstream lines(document().substr(start, document().find("\n#", start + 1) - start));
  std::vector<std::string> described;
  for (std::string line; std::getline(lines, line);)
    if (line.starts_with("| `")) described.push_back(line.substr(3, line.find('`', 3) - 3));
  EXPECT_EQ(described, *store::columns_of(*connection, "history"));
}

TEST(NotebookFileDocument, DescribesEveryColumnOfAContent) {
  const auto connection = store::Connection::in_memory().value();
  const auto start = document().find("### `content`");
  ASSERT_NE(start, std::string::npos);
  std::istringstream lines(document().substr(start, document().find("\n#", start + 1) - start));
  std::vector<std::string> described;
  for (std::string line; std::getline(lines, line);)
    if (line.starts_with("| `")) described.push_back(line.substr(3, line.find('`', 3) - 3));
  EXPECT_EQ(described, *store::columns_of(*connection, "content"));
}

TEST(NotebookFileDocument, DescribesEveryKeyOfTheReading) {
  readings::Reading reading = readings::parse("<0,02 g", {}).value();
  reading.mark = DecimalMark::comma;
  reading.balance = BalanceId{1};
  reading.step_g = 0.01;
  reading.answer = "yes";
  std::istringstream lines(document().substr(document().find("## A reading")));
  std::vector<std::string> described;
  for (std::string line; std::getline(lines, line) && !line.starts_with("## The history");)
    if (line.starts_with("| `")) described.push_back(line.substr(3, line.find('`', 3) - 3));
  std::string keys;
  for (const std::string& key : described) {
    EXPECT_NE(encode(reading).find("\"" + key + "\":"), std::string::npos) << key;
    keys += key;
  }
  EXPECT_EQ(described.size(), 8u) << keys;
}

TEST(NotebookFileDocument, DescribesEveryKeyOfTheDump) {
  const auto connection = store::Connection::in_memory().value();
  for (const char* key : {"format", "format_version", "schema_version", "tables", "contents", "history"}) {
    EXPECT_NE(dump_notebook(*connection)->find(fmt::format("\"{}\":", key)), std::string::npos) << key;
    EXPECT_NE(document().find(fmt::format("\n| `{}` |", key)), std::string::npos) << key;
  }
}

}  // namespace
}  // namespace prillbook::exchange
