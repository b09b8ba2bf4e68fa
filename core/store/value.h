// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <cstdint>
#include <string>
#include <string_view>
#include <variant>
#include <vector>

namespace prillbook::store {

// What a cell of a notebook can hold. Real numbers never stand alone: a figure is a reading, kept as typed.
using Value = std::variant<std::monostate, std::int64_t, std::string>;

// The same where it stands, as long as that stands.
using ValueView = std::variant<std::monostate, std::int64_t, std::string_view>;

inline bool is_null(const Value& value) { return std::holds_alternative<std::monostate>(value); }

}  // namespace prillbook::store
