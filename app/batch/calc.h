// SPDX-License-Identifier: GPL-3.0-or-later
// The computations of `prillbook calc NAME`: JSON in, JSON out. Each verb only translates between JSON and a pure
// function of core; the keys are fixed by docs/batch.md.
#pragma once

#include <nlohmann/json.hpp>
#include <string_view>
#include <vector>

#include "core/base/result.h"

namespace prillbook::batch {

using Json = nlohmann::ordered_json;

// Errors: unknown_verb, and the errors of the verb itself.
Result<Json> calc(std::string_view name, const nlohmann::json& input);
std::vector<std::string_view> calc_names();

}  // namespace prillbook::batch
