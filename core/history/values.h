// SPDX-License-Identifier: GPL-3.0-or-later
// What may stand in a field, and how the fields of a new record stand in the history.
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "core/base/result.h"
#include "core/history/catalogue.h"
#include "core/store/value.h"

namespace prillbook::history {

// "client.name"
std::string path_of(const Field& field);

// What can be said of a value without the other records; references and uniqueness are left to the schema. Errors:
// missing_key (a required field), wrong_type, out_of_range (no word of the choice, no date and time).
Result<void> check_value(const Field& field, const store::Value& value);

// Reads what made_text writes, code by code. Empty where it is anything else.
std::optional<std::vector<std::pair<std::int64_t, store::Value>>> read_made_text(std::string_view text);

}  // namespace prillbook::history
