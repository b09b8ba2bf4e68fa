// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/batch/calc.h"

#include <gtest/gtest.h>

namespace prillbook::batch {
namespace {

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
