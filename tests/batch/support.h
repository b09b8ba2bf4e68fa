// SPDX-License-Identifier: GPL-3.0-or-later
// Short ways to call a verb in tests.
#pragma once

#include <gtest/gtest.h>

#include <string>
#include <vector>

#include "app/batch/calc.h"
#include "core/json/json_input.h"

namespace prillbook::batch {

inline Result<Json> run(std::string_view verb, std::string_view input) {
  PRILLBOOK_ASSIGN(const nlohmann::json value, parse_json(input));
  return calc(verb, value);
}

// The output, or an empty object and a failed test.
inline Json done(std::string_view verb, std::string_view input) {
  auto result = run(verb, input);
  if (result.ok()) return *result;
  ADD_FAILURE() << verb << " refused " << result.error().field << ": " << result.error().detail;
  return Json::object();
}

// "code field" of the refusal.
inline std::string refusal(std::string_view verb, std::string_view input) {
  const auto result = run(verb, input);
  if (result.ok()) return "done";
  return std::string(contract_name(result.error().code)) + " " + result.error().field;
}

inline std::vector<std::string> keys(const Json& object) {
  std::vector<std::string> names;
  for (const auto& [key, value] : object.items()) names.push_back(key);
  return names;
}

}  // namespace prillbook::batch
