// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/balance_line/balance_line.h"

#include <gmock/gmock.h>
#include <rapidcheck/gtest.h>

#include <algorithm>

namespace prillbook::balance_line {
namespace {

const Layout& layout(std::string_view name) {
  const Layout* found = find_layout(name);
  EXPECT_NE(found, nullptr) << name;
  return *found;
}
const Layout& plain() { return layout("figure and unit"); }
const Layout& marked() { return layout("mark, figure and unit"); }
const Layout& unit_when_stable() { return layout("figure with a unit only when it is stable"); }

std::string typed(std::string_view line, const Layout& by) {
  const auto figure = read_line(line, by);
  if (!figure.ok()) return "refused: " + figure.error().detail;
  const char* word = figure->stability == Stability::stable ? "" : figure->stability == Stability::moving ? "moving " : "over";
  return word + figure->typed;
}

TEST(BalanceLine, LayoutsComeFromTheirFile) { EXPECT_EQ(layouts().size(), 4u); }

TEST(BalanceLine, FigureAndUnit) {
  EXPECT_EQ(typed("22.014 mg", plain()), "22.014 mg");
  EXPECT_EQ(typed("   +   0.0220 g  ", plain()), "0.0220 g");
  EXPECT_EQ(typed("0,0220 g", plain()), "0,0220 g");
  EXPECT_EQ(typed("- 0.003 mg", plain()), "-0.003 mg");
  EXPECT_EQ(typed("22.014", plain()), "22.014");
  EXPECT_EQ(typed("22.014mg?", plain()), "moving 22.014 mg");
  EXPECT_EQ(typed("22.014 mg ~", plain()), "moving 22.014 mg");
  EXPECT_EQ(typed("OVER", plain()), "over");
}

TEST(BalanceLine, UnitsOfTheTrade) {
  for (const char* unit : {"mg", "g", "kg", "ct", "ozt", "gr"})
    EXPECT_EQ(typed(std::string("1.5 ") + unit, plain()), std::string("1.5 ") + unit);
  EXPECT_EQ(typed("1.5 MG", plain()), "1.5 mg");
  EXPECT_EQ(read_line("1.5 lb", plain()).error().code, ErrorCode::unknown_unit);
  EXPECT_EQ(read_line("1.5 oz", plain()).error().code, ErrorCode::unknown_unit) << "which ounce is not said";
}

TEST(BalanceLine, MarkedLines) {
  EXPECT_EQ(typed("stable, +0.02200 g", marked()), "0.02200 g");
  EXPECT_EQ(typed("ST,NT,+  0.02200 g", marked()), "0.02200 g");
  EXPECT_EQ(typed("moving +0.02200 g", marked()), "moving 0.02200 g");
  EXPECT_EQ(typed("? 0.02200 g", marked()), "moving 0.02200 g");
  EXPECT_EQ(typed("0.02200 g", marked()), "moving 0.02200 g") << "without its mark it is not known to stand still";
  EXPECT_EQ(typed("OL", marked()), "over");
}

TEST(BalanceLine, AUnitOnlyWhenStable) {
  EXPECT_EQ(typed("N  + 22.014 mg", unit_when_stable()), "22.014 mg");
  EXPECT_FALSE(read_line("N  + 22.014", unit_when_stable()).ok());
}

TEST(BalanceLine, RefusesWhatIsNoFigure) {
  for (const char* line : {"O.O22 mg", "0.0O2 mg", "2l.4 mg", "1.234.5 mg", "mg", "", "----", "12.5 mg 13.5 mg", "0x16 mg",
                           "1e3 mg", "NaN mg", "inf g", "1. 5 mg"})
    EXPECT_FALSE(read_line(line, plain()).ok()) << line;
  EXPECT_EQ(read_line("0.0O2 mg", plain()).error().code, ErrorCode::not_a_number);
  EXPECT_EQ(read_line("2l.4 mg", plain()).error().code, ErrorCode::not_a_number);
}

TEST(BalanceLine, KeepsALineReadable) {
  EXPECT_EQ(readable(std::string_view("a\x01\xff b", 5)), "a\\x01\\xff b");
  EXPECT_LE(readable(std::string(10'000, '\x02')).size(), longest_line);
}

TEST(BalanceLine, LayoutsThatAreNone) {
  for (const char* line : {"", "a", "a|number|||", "a|number|||| sometimes", "a|unit||||stable", "a|number number||||stable",
                           "|number||||stable", "a|number?||||stable", "a|colour number||||stable"})
    EXPECT_FALSE(parse_layout(line).ok()) << line;
  EXPECT_TRUE(parse_layout("own | label number unit | | | | stable").ok());
}

TEST(BalanceLineAssembler, LinesEndAtReturnOrNewline) {
  Assembler lines;
  EXPECT_EQ(lines.feed("1.0 mg\r\n2.0 mg\n\r\n3.0 mg\r4"), (std::vector<std::string>{"1.0 mg", "2.0 mg", "3.0 mg"}));
  EXPECT_TRUE(lines.waits_for_end());
  EXPECT_EQ(lines.feed(".0 mg\r"), std::vector<std::string>{"4.0 mg"});
}

TEST(BalanceLineAssembler, ALineOfTenKilobytesIsThrownAwayAndTheNextIsRead) {
  Assembler lines;
  EXPECT_TRUE(lines.feed(std::string(10'000, '7')).empty());
  EXPECT_EQ(lines.too_long(), 1);
  EXPECT_EQ(lines.feed("77 mg\r\n5.0 mg\r\n"), std::vector<std::string>{"5.0 mg"});
}

TEST(BalanceLineAssembler, WhatHadNoEndIsForgottenWithThePort) {
  Assembler lines;
  lines.feed("12");
  lines.forget();
  EXPECT_EQ(lines.feed("3.0 mg\n"), std::vector<std::string>{"3.0 mg"});
}

// However the bytes are cut, the lines are the same.
RC_GTEST_PROP(BalanceLineAssembler, SplitsDoNotMatter, (const std::string& text)) {
  Assembler whole, pieces;
  const auto expected = whole.feed(text);
  std::vector<std::string> got;
  for (std::size_t at = 0; at < text.size();) {
    const auto size = std::size_t(*rc::gen::inRange(1, 7));
    for (std::string& line : pieces.feed(std::string_view(text).substr(at, size))) got.push_back(std::move(line));
    at += size;
  }
  RC_ASSERT(got == expected);
}

// Nothing a line holds does harm, and what is read back has no character that was not a figure or a unit.
RC_GTEST_PROP(BalanceLineLaw, AnyBytesAreReadOrRefused, (const std::string& text)) {
  for (const Layout& one : layouts()) {
    const auto figure = read_line(text, one);
    if (figure.ok()) RC_ASSERT(figure->typed.find_first_not_of("-0123456789., mgkctozr") == std::string::npos);
  }
}

// A figure sent is the figure read, in each layout that comes with the program.
RC_GTEST_PROP(BalanceLineLaw, ADisplayedFigureComesThrough, ()) {
  const int whole = *rc::gen::inRange(0, 100000), part = *rc::gen::inRange(0, 10000);
  const char mark = *rc::gen::element('.', ',');
  const std::string digits = std::to_string(whole) + mark + std::to_string(10000 + part).substr(1);
  RC_ASSERT(read_line("  " + digits + " mg", plain())->typed == digits + " mg");
  RC_ASSERT(read_line("st " + digits + " mg", marked())->typed == digits + " mg");
  RC_ASSERT(read_line("N " + digits + " mg", unit_when_stable())->typed == digits + " mg");
}

}  // namespace
}  // namespace prillbook::balance_line
