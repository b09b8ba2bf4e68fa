// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/batch/json_input.h"

#include <gtest/gtest.h>

#include "app/batch/calc.h"

namespace prillbook::batch {
namespace {

TEST(JsonInput, RefusesDuplicateKeys) {
  const auto value = parse_json(R"({"a": 1, "b": {"c": 1, "c": 2}})");
  ASSERT_FALSE(value.ok());
  EXPECT_EQ(value.error().code, ErrorCode::malformed_json);
  EXPECT_TRUE(parse_json(R"({"a": {"x": 1}, "b": {"x": 1}})").ok());
}

TEST(JsonInput, NamesThePathOfTheFault) {
  const auto value = parse_json(R"({"cuts": [{"g": 1}, {"g": "two"}]})");
  auto input = JsonInput::object(*value);
  auto cuts = input->children("cuts");
  ASSERT_TRUE(cuts.ok());
  const auto g = (*cuts)[1].number("g");
  ASSERT_FALSE(g.ok());
  EXPECT_EQ(g.error().field, "cuts[1].g");
  EXPECT_EQ(g.error().code, ErrorCode::wrong_type);
}

TEST(Calc, UnknownVerbAndUnknownKey) {
  EXPECT_EQ(calc("colour", {}).error().code, ErrorCode::unknown_verb);
  const auto refused = calc("convert", {{"value", 1}, {"from", "g_t"}, {"to", "ppm"}, {"extra", 1}});
  ASSERT_FALSE(refused.ok());
  EXPECT_EQ(refused.error().code, ErrorCode::unknown_key);
  EXPECT_EQ(refused.error().field, "extra");
}

TEST(Calc, NullIsNotAbsent) {
  EXPECT_EQ(calc("convert", {{"value", nullptr}, {"from", "g_t"}, {"to", "ppm"}}).error().code, ErrorCode::wrong_type);
}

}  // namespace
}  // namespace prillbook::batch
