// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/readings/reading.h"

#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include "core/units/units.h"

namespace prillbook::readings {
namespace {

constexpr Expectation grams{Measure::mass, "g", DecimalMark::point, true};

TEST(Reading, UnderstandsMassesAsPeopleTypeThem) {
  EXPECT_DOUBLE_EQ(parse("22 mg", grams)->value, 0.022);
  EXPECT_DOUBLE_EQ(parse("0,022 g", grams)->value, 0.022);
  EXPECT_DOUBLE_EQ(parse("1 kg", grams)->value, 1000);
  EXPECT_DOUBLE_EQ(parse("22", {Measure::mass, "mg", DecimalMark::point, true})->value, 0.022);
  EXPECT_EQ(parse(" 22mg ", grams)->typed, "22mg");
}

TEST(Reading, NoneAndBelowDetectionAreStatesNotNumbers) {
  EXPECT_EQ(parse("none", grams)->state, State::none_seen);
  const auto below = parse("<0.01 mg", grams);
  EXPECT_EQ(below->state, State::below_detection);
  EXPECT_DOUBLE_EQ(below->value, 0.00001);
}

struct Refusal {
  const char* text;
  Measure measure;
  ErrorCode code;
};

class ReadingRefused : public testing::TestWithParam<Refusal> {};

TEST_P(ReadingRefused, WithItsCode) {
  const auto reading = parse(GetParam().text, {GetParam().measure, base_unit(GetParam().measure), DecimalMark::point, false});
  ASSERT_FALSE(reading.ok());
  EXPECT_EQ(reading.error().code, GetParam().code) << reading.error().detail;
}

INSTANTIATE_TEST_SUITE_P(BadInput, ReadingRefused,
                         testing::Values(Refusal{"", Measure::mass, ErrorCode::missing_key},
                                         Refusal{"-1 g", Measure::mass, ErrorCode::out_of_range},
                                         Refusal{"0", Measure::mass, ErrorCode::out_of_range},
                                         Refusal{"none", Measure::mass, ErrorCode::out_of_range},
                                         Refusal{"3 ton", Measure::mass, ErrorCode::unknown_unit},
                                         Refusal{"3 oz", Measure::mass, ErrorCode::unknown_unit},
                                         Refusal{"1001", Measure::fineness, ErrorCode::out_of_range},
                                         Refusal{"101 %", Measure::share, ErrorCode::out_of_range},
                                         Refusal{"1,234", Measure::mass, ErrorCode::ambiguous_mark},
                                         Refusal{"1e999", Measure::mass, ErrorCode::not_finite},
                                         Refusal{"\xFF", Measure::mass, ErrorCode::not_a_number}));

TEST(Reading, CellThatContradictsItsTextIsDamaged) {
  EXPECT_TRUE(decode(R"({"typed":"22 mg","unit":"mg","value":0.022})", Measure::mass).ok());
  EXPECT_EQ(decode(R"({"typed":"22 mg","unit":"mg","value":0.023})", Measure::mass).error().code, ErrorCode::damaged);
  for (const char* cell : {"", "[]", "{}", R"({"typed":1,"unit":"g","value":1})", R"({"typed":"1","unit":"g","value":"1"})"})
    EXPECT_EQ(decode(cell, Measure::mass).error().code, ErrorCode::damaged) << cell;
}

// The cells of a notebook are read without a reader of JSON where they are written the usual way: no other text may pass.
TEST(Reading, ACellOfTheUsualShapeIsReadAsAnyOther) {
  const auto usual = decode(R"({"typed":"22 mg","unit":"mg","value":0.022,"balance":3,"step_g":0.001})", Measure::mass);
  const auto turned =
      decode(R"({ "step_g": 1e-3, "value": 0.022, "unit": "mg", "balance": 3, "typed": "22 mg" })", Measure::mass);
  ASSERT_TRUE(usual.ok());
  ASSERT_TRUE(turned.ok());
  EXPECT_EQ(*usual, *turned);
  EXPECT_EQ(usual->balance, BalanceId{3});
  EXPECT_TRUE(decode(R"({"typed":"1 g","unit":"g","value":1,"later":"key"})", Measure::mass).ok());
  EXPECT_TRUE(decode(R"({"typed":"0,022 mg","unit":"mg","mark":",","value":2.2e-05})", Measure::mass).ok());
  EXPECT_TRUE(decode(R"({"typed":"820 ‰","unit":"‰","value":820.0})", Measure::fineness).ok());
  for (const char* cell :
       {R"({"typed":"1","unit":"g","value":01})", R"({"typed":"1","unit":"g","value":1.})",
        R"({"typed":"1","unit":"g","value":.1e1})", R"({"typed":"1","unit":"g","value":1}})",
        R"({"typed":"1","unit":"g","value":1)", R"({"typed":"1\","unit":"g","value":1})",
        R"({"typed":"1","unit":"g","value":1e})", R"({"typed":"1","unit":"g","value":1e+})",
        "{\"typed\":\"1\",\"unit\":\"g\xFF\",\"value\":1}", R"({"typed":"1","unit":"g","value":1,"balance":1.5})",
        R"({"typed":"1","unit":"g","value":1,"balance":})"})
    EXPECT_EQ(decode(cell, Measure::mass).error().code, ErrorCode::damaged) << cell;
}

RC_GTEST_PROP(Reading, EveryTypedMassSurvivesTheCell, ()) {
  const auto milligrams = *rc::gen::inRange(0, 100'000'000);
  const auto unit = *rc::gen::element<std::string>("mg", "g", "kg", "ct", "gr", "dwt", "ozt");
  const auto mark = *rc::gen::element(DecimalMark::point, DecimalMark::comma);
  const auto reading = parse(fixed(milligrams / 1000.0, 3, mark) + " " + unit, {Measure::mass, "g", mark, true});
  RC_ASSERT(reading.ok());
  const auto again = decode(encode(*reading), Measure::mass);
  RC_ASSERT(again.ok());
  RC_ASSERT(*again == *reading);
}

}  // namespace
}  // namespace prillbook::readings
