// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/base/number.h"

#include <gtest/gtest.h>

namespace prillbook {
namespace {

struct Reads {
  const char* text;
  double value;
  const char* rest;
  DecimalMark mark;
};

class NumberReads : public testing::TestWithParam<Reads> {};

TEST_P(NumberReads, AsTyped) {
  const auto number = parse_number(GetParam().text, DecimalMark::point);
  ASSERT_TRUE(number.ok()) << number.error().detail;
  EXPECT_DOUBLE_EQ(number->value, GetParam().value);
  EXPECT_EQ(number->rest, GetParam().rest);
  EXPECT_EQ(number->mark, GetParam().mark);
}

INSTANTIATE_TEST_SUITE_P(
    PointPreferred, NumberReads,
    testing::Values(Reads{"22 mg", 22, "mg", DecimalMark::point}, Reads{"22mg", 22, "mg", DecimalMark::point},
                    Reads{"0,022 g", 0.022, "g", DecimalMark::comma}, Reads{".5", 0.5, "", DecimalMark::point},
                    Reads{",5", 0.5, "", DecimalMark::comma}, Reads{"5.", 5, "", DecimalMark::point},
                    Reads{"1 234,5 g", 1234.5, "g", DecimalMark::comma}, Reads{"1,234.5", 1234.5, "", DecimalMark::point},
                    Reads{"1.234,5", 1234.5, "", DecimalMark::comma}, Reads{"1,234,567", 1234567, "", DecimalMark::point},
                    Reads{"1.234", 1.234, "", DecimalMark::point}, Reads{"-3,5e-2 kg", -0.035, "kg", DecimalMark::comma},
                    Reads{"\xE2\x88\x92"
                          "2",
                          -2, "", DecimalMark::point},
                    Reads{"  12  ", 12, "", DecimalMark::point},
                    Reads{"12\xC2\xA0"
                          "345 g",
                          12345, "g", DecimalMark::point}));

class NumberRefused : public testing::TestWithParam<std::pair<const char*, ErrorCode>> {};

TEST_P(NumberRefused, WithItsCode) {
  const auto number = parse_number(GetParam().first, DecimalMark::point);
  ASSERT_FALSE(number.ok());
  EXPECT_EQ(number.error().code, GetParam().second) << number.error().detail;
}

INSTANTIATE_TEST_SUITE_P(Refusals, NumberRefused,
                         testing::Values(std::pair{"", ErrorCode::not_a_number}, std::pair{"abc", ErrorCode::not_a_number},
                                         std::pair{"-", ErrorCode::not_a_number}, std::pair{"1,2,3", ErrorCode::not_a_number},
                                         std::pair{"0,250,245", ErrorCode::not_a_number},
                                         std::pair{"0,250.5", ErrorCode::not_a_number},
                                         std::pair{"1.2.3,4", ErrorCode::not_a_number},
                                         std::pair{"1,234", ErrorCode::ambiguous_mark}, std::pair{"1e999", ErrorCode::not_finite},
                                         std::pair{"nan", ErrorCode::not_a_number}, std::pair{"inf", ErrorCode::not_a_number}));

TEST(Number, AmbiguousMarkOffersBothReadings) {
  const auto number = parse_number("1,234", DecimalMark::point);
  ASSERT_FALSE(number.ok());
  EXPECT_EQ(number.error().arguments, (std::vector<std::string>{"1234", "1.234"}));
}

TEST(Number, PreferredCommaDecides) { EXPECT_DOUBLE_EQ(parse_number("1,234", DecimalMark::comma)->value, 1.234); }

TEST(Number, KeepsDigitsAsTyped) { EXPECT_EQ(parse_number("0,0220 g", DecimalMark::comma)->digits, "0.0220"); }

// A sign keeps a number from the short way that most figures take.
TEST(Number, ASignChangesNothingElse) {
  for (const std::string text :
       {"0",  "22",   "0.022", "0,022", "22 mg", "22mg",  "1.5 kg", "1,5 kg", "1 234", "1 234,5 g",     "1,234", "1.234 g",
        "5.", "5. g", "5 e3",  "5e3 g", "007",   "1.2.3", "12  g",  "3 ‰",    "3 %",   "1 234 567.5 t", "4 5",   "4 567"})
    for (const auto mark : {DecimalMark::point, DecimalMark::comma}) {
      const std::string signed_text = "+" + text;
      const auto plain = parse_number(text, mark), with_sign = parse_number(signed_text, mark);
      ASSERT_EQ(plain.ok(), with_sign.ok()) << text;
      if (!plain.ok()) continue;
      EXPECT_EQ(plain->value, with_sign->value) << text;
      EXPECT_EQ(plain->mark, with_sign->mark) << text;
      EXPECT_EQ(plain->digits, with_sign->digits) << text;
      EXPECT_EQ(plain->rest, with_sign->rest) << text;
    }
}

TEST(Number, FixedRoundsAsAPersonWould) {
  EXPECT_EQ(fixed(2.675, 2), "2.68");
  EXPECT_EQ(fixed(0.125, 2), "0.13");
  EXPECT_EQ(fixed(-0.001, 2), "0.00");
  EXPECT_EQ(fixed(1234.5, 1, DecimalMark::comma), "1234,5");
}

TEST(Number, ShortestReadsBack) { EXPECT_EQ(parse_number(shortest(0.1 + 0.2), DecimalMark::point)->value, 0.1 + 0.2); }

}  // namespace
}  // namespace prillbook
