// SPDX-License-Identifier: GPL-3.0-or-later
// Checked reading of one JSON object of a batch verb. Every accessor marks its key as known; finish() refuses the
// rest as unknown_key. Errors carry the path of the key, "cuts[1].retained_g".
#pragma once

#include <limits>
#include <nlohmann/json.hpp>
#include <optional>
#include <set>
#include <string>
#include <string_view>
#include <vector>

#include "core/base/result.h"

namespace prillbook {

// Allowed values of a number. Bounds are inclusive unless the flag says that the lower one is not.
struct Domain {
  double low = -std::numeric_limits<double>::infinity();
  double high = std::numeric_limits<double>::infinity();
  bool above_low = false;  // value > low instead of value >= low
};

inline constexpr Domain any_number{};
inline constexpr Domain positive{0, std::numeric_limits<double>::infinity(), true};
inline constexpr Domain not_negative{0};
inline constexpr Domain percentage{0, 100};
inline constexpr Domain thousandths{0, 1000};

class JsonInput {
 public:
  // Errors: wrong_type where `value` is no object. `value` must outlive the reader.
  static Result<JsonInput> object(const nlohmann::json& value, std::string path = "");

  bool has(std::string_view key) const;  // does not mark the key as known

  // Errors: missing_key, wrong_type, not_finite, out_of_range.
  Result<double> number(std::string_view key, Domain domain = any_number);
  // Absent key: nullopt. null is wrong_type, never "absent".
  Result<std::optional<double>> optional_number(std::string_view key, Domain domain = any_number);
  Result<double> number_or(std::string_view key, double fallback, Domain domain = any_number);
  // A number or an array of at least one number.
  Result<std::vector<double>> number_or_list(std::string_view key, Domain domain = any_number);
  // An array; `least` elements or more (else too_small).
  Result<std::vector<double>> numbers(std::string_view key, Domain domain = any_number, std::size_t least = 1);
  Result<bool> flag(std::string_view key, bool fallback);
  Result<std::string> text(std::string_view key);
  Result<std::optional<std::string>> optional_text(std::string_view key);
  Result<JsonInput> child(std::string_view key);                  // an object
  Result<std::vector<JsonInput>> children(std::string_view key);  // an array of objects
  const nlohmann::json* raw(std::string_view key);                // marks the key as known; nullptr where absent

  // Errors: unknown_key for the first key that no accessor asked for.
  Result<void> finish() const;

  std::string path_of(std::string_view key) const;
  Error error(ErrorCode code, std::string_view key, std::string detail) const;

 private:
  JsonInput(const nlohmann::json& value, std::string path) : value_(&value), path_(std::move(path)) {}

  const nlohmann::json* value_;
  std::string path_;
  std::set<std::string, std::less<>> known_;
};

// Reads one JSON text. Errors: malformed_json (duplicate keys included).
Result<nlohmann::json> parse_json(std::string_view text);

}  // namespace prillbook
