// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/tables/table.h"

#include <gmock/gmock.h>
#include <rapidcheck/gtest.h>

namespace prillbook::tables {
namespace {

using testing::ElementsAre;
using Cells = std::vector<std::string>;

std::vector<Cells> cells_of(std::string_view text, char delimiter = ',') {
  std::vector<Cells> rows;
  const auto table = parse_table(text, delimiter);
  EXPECT_TRUE(table.ok()) << table.error().detail;
  if (table.ok())
    for (const TableRow& row : *table) rows.push_back(row.cells);
  return rows;
}

// RFC 4180, section 2, the numbered rules and their own examples.
TEST(Rfc4180, Rule1EachRecordOnALineOfItsOwn) {
  EXPECT_THAT(cells_of("aaa,bbb,ccc\r\nzzz,yyy,xxx\r\n"), ElementsAre(Cells{"aaa", "bbb", "ccc"}, Cells{"zzz", "yyy", "xxx"}));
}
TEST(Rfc4180, Rule2TheLastLineNeedsNoEnd) {
  EXPECT_THAT(cells_of("aaa,bbb,ccc\r\nzzz,yyy,xxx"), ElementsAre(Cells{"aaa", "bbb", "ccc"}, Cells{"zzz", "yyy", "xxx"}));
}
TEST(Rfc4180, Rule4BlanksArePartOfAField) {
  EXPECT_THAT(cells_of(" aaa ,bbb\t, ccc"), ElementsAre(Cells{" aaa ", "bbb\t", " ccc"}));
}
TEST(Rfc4180, Rule5FieldsMayStandInQuotes) {
  EXPECT_THAT(cells_of("\"aaa\",\"bbb\",\"ccc\"\r\nzzz,yyy,xxx"),
              ElementsAre(Cells{"aaa", "bbb", "ccc"}, Cells{"zzz", "yyy", "xxx"}));
}
TEST(Rfc4180, Rule6LineEndsAndDelimitersInQuotes) {
  EXPECT_THAT(cells_of("\"aaa\",\"b\r\nbb\",\"ccc\"\r\nzzz,yyy,xxx"),
              ElementsAre(Cells{"aaa", "b\r\nbb", "ccc"}, Cells{"zzz", "yyy", "xxx"}));
  EXPECT_THAT(cells_of("\"a,b\",c"), ElementsAre(Cells{"a,b", "c"}));
}
TEST(Rfc4180, Rule7AQuoteInQuotesIsDoubled) {
  EXPECT_THAT(cells_of("\"aaa\",\"b\"\"bb\",\"ccc\""), ElementsAre(Cells{"aaa", "b\"bb", "ccc"}));
}

TEST(Table, TakesOtherLineEndsAndPassesOverBlankLines) {
  EXPECT_THAT(cells_of("a,b\nc,d\n"), ElementsAre(Cells{"a", "b"}, Cells{"c", "d"}));
  EXPECT_THAT(cells_of("a,b\rc,d\r"), ElementsAre(Cells{"a", "b"}, Cells{"c", "d"}));
  EXPECT_THAT(cells_of("\n\na,\r\n\r\n,b\n"), ElementsAre(Cells{"a", ""}, Cells{"", "b"}));
  EXPECT_TRUE(cells_of("").empty());
}

TEST(Table, AQuoteInsideACellIsALetter) { EXPECT_THAT(cells_of("5\" core,x"), ElementsAre(Cells{"5\" core", "x"})); }

TEST(Table, RefusesLettersAfterAClosingQuoteWithTheirLine) {
  const auto refused = parse_table("a,b\nc,\"d\"e\nf,\"g\"\n", ',');
  ASSERT_FALSE(refused.ok());
  EXPECT_EQ(refused.error().field, "after_quote");
  EXPECT_EQ(refused.error().arguments.front(), "2");
}

TEST(Table, KnowsTheLineEachRowBeginsOn) {
  const auto table = *parse_table("h\r\n\r\n\"one\r\ntwo\",x\r\nlast\r\n", ',');
  ASSERT_EQ(table.size(), 3u);
  EXPECT_EQ(table[0].line, 1);
  EXPECT_EQ(table[1].line, 3);
  EXPECT_EQ(table[2].line, 5);
}

TEST(Table, RefusesAQuoteThatIsNeverClosedWithItsLine) {
  const auto refused = parse_table("a,b\r\nc,\"d\r\ne,f\r\ng,h\r\n", ',');
  ASSERT_FALSE(refused.ok());
  EXPECT_EQ(refused.error().code, ErrorCode::inconsistent);
  EXPECT_EQ(refused.error().field, "quote");
  EXPECT_EQ(refused.error().arguments.front(), "2");
}

TEST(Table, RefusesACellAboveTheLimitAndTooManyColumns) {
  const std::string full(largest_cell, 'x');
  EXPECT_EQ(cells_of(full).front().front().size(), largest_cell);
  const auto cell = parse_table("a\n" + full + "x,b\n", ',');
  ASSERT_FALSE(cell.ok());
  EXPECT_EQ(cell.error().field, "cell_size");
  EXPECT_EQ(cell.error().arguments.front(), "2");
  EXPECT_EQ(cells_of(std::string(most_columns - 1, ',')).front().size(), most_columns);
  EXPECT_EQ(parse_table(std::string(most_columns, ','), ',').error().field, "columns");
}

TEST(Table, StopsAfterAsManyRowsAsAreWanted) { EXPECT_EQ(parse_table("a\nb\nc\n\"never closed", ',', 2)->size(), 2u); }

TEST(Delimiter, IsTheOneThatGivesEveryRowTheSameCells) {
  EXPECT_EQ(find_delimiter("mark;mass\nA;1,5\nB;2,5\n"), ';');
  EXPECT_EQ(find_delimiter("mark,mass\nA,1.5\nB,2.5\n"), ',');
  EXPECT_EQ(find_delimiter("mark\tmass\nA, the first\t1,5\nB\t2,5\n"), '\t');
  EXPECT_EQ(find_delimiter("mark|mass\nA|1;5\nB|2\n"), '|');
  EXPECT_EQ(find_delimiter("\"a;b\",c\n\"d;e\",f\n"), ',') << "what stands in quotes does not count";
  EXPECT_EQ(find_delimiter("mark\nA\nB\n"), ',');
  EXPECT_EQ(find_delimiter(""), ',');
}

TEST(Delimiter, NamesLeadBack) {
  for (const char delimiter : delimiters) EXPECT_EQ(delimiter_by_name(delimiter_name(delimiter)), delimiter);
  EXPECT_EQ(delimiter_by_name(";"), ';');
  EXPECT_FALSE(delimiter_by_name("dash"));
}

struct Marks {
  std::vector<const char*> cells;
  std::optional<DecimalMark> found;
  bool open;
};
class MarkOfAList : public testing::TestWithParam<Marks> {};

TEST_P(MarkOfAList, IsFoundOrAskedFor) {
  MarkEvidence evidence;
  for (const char* cell : GetParam().cells) evidence.look_at(cell);
  EXPECT_EQ(evidence.found(), GetParam().found);
  EXPECT_EQ(evidence.open(), GetParam().open);
}

constexpr auto comma = DecimalMark::comma, point = DecimalMark::point;
INSTANTIATE_TEST_SUITE_P(Cells, MarkOfAList,
                         testing::Values(Marks{{"1,5", "12"}, comma, false}, Marks{{"1.5", "", "x"}, point, false},
                                         Marks{{"0,022 g"}, comma, false}, Marks{{"1,234"}, std::nullopt, true},
                                         Marks{{"1.234"}, std::nullopt, true}, Marks{{"1,234", "1,5"}, comma, false},
                                         Marks{{"1.234,5"}, comma, false}, Marks{{"1,234,567"}, point, false},
                                         Marks{{"1.5", "1,5"}, std::nullopt, false},
                                         Marks{{"1.5", "1,5", "1,234"}, std::nullopt, true},
                                         Marks{{"12", "7"}, std::nullopt, false}, Marks{{"<0,5 kg"}, comma, false},
                                         Marks{{"=1,5"}, std::nullopt, false}));

// Random bytes, bent towards what matters in a list, with every delimiter: a table or a refusal, never anything else.
RC_GTEST_PROP(Table, AnyBytesGiveATableOrARefusal, ()) {
  const auto text = *rc::gen::container<std::string>(
      rc::gen::weightedOneOf<char>({{4, rc::gen::element('"', ',', ';', '\t', '|', '\r', '\n', ' ')},
                                    {3, rc::gen::arbitrary<char>()},
                                    {1, rc::gen::just('\0')}}));
  for (const char delimiter : delimiters) {
    const auto table = parse_table(text, delimiter);
    if (!table.ok()) {
      RC_ASSERT(table.error().field == "quote" || table.error().field == "after_quote");
      continue;
    }
    long line = 0;
    for (const TableRow& row : *table) {
      RC_ASSERT(!row.cells.empty());
      RC_ASSERT(row.line > line);
      line = row.line;
    }
  }
  (void)find_delimiter(text);
}

}  // namespace
}  // namespace prillbook::tables
