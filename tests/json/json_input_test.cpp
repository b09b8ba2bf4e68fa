// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/json/json_input.h"

#include <gtest/gtest.h>

namespace prillbook {
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

}  // namespace
}  // namespace prillbook
