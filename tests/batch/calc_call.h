// SPDX-License-Identifier: GPL-3.0-or-later
// Calls a computation by the text a caller would send.
#pragma once

#include <gtest/gtest.h>

#include <string>
#include <string_view>

#include "app/batch/calc.h"
#include "core/json/json_input.h"
#include "tests/batch/support.h"

namespace prillbook::batch {

inline Json answer(std::string_view name, std::string_view text) {
  const auto input = parse_json(text);
  EXPECT_TRUE(input.ok()) << text;
  const auto result = input.ok() ? calc(name, *input) : Result<Json>(input.error());
  if (!result.ok()) ADD_FAILURE() << text << ": " << result.error().detail;
  return result.ok() ? *result : Json{};
}

}  // namespace prillbook::batch
