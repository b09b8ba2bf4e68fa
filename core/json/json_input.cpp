// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/json/json_input.h"

#include <fmt/format.h>

#include <cmath>

namespace prillbook {
namespace {

Result<double> checked(const nlohmann::json& value, const std::string& path, Domain domain) {
  if (!value.is_number()) return Error{ErrorCode::wrong_type, path, fmt::format("{}: a number is needed", path), {}};
  const double number = value.get<double>();
  if (!std::isfinite(number)) return Error{ErrorCode::not_finite, path, fmt::format("{}: the number is not finite", path), {}};
  if (number < domain.low || number > domain.high || (domain.above_low && number <= domain.low)) {
    const std::string low =
        std::isfinite(domain.low) ? fmt::format(" {} {}", domain.above_low ? "above" : "at least", domain.low) : "";
    const std::string high = std::isfinite(domain.high) ? fmt::format(" at most {}", domain.high) : "";
    return Error{ErrorCode::out_of_range,
                 path,
                 fmt::format("{}: {} is out of range, it must be{}{}{}", path, number, low,
                             low.empty() || high.empty() ? "" : " and", high),
                 {}};
  }
  return number;
}

Result<std::vector<double>> checked_list(const nlohmann::json& list, const std::string& path, Domain domain) {
  std::vector<double> numbers;
  for (std::size_t i = 0; i < list.size(); ++i) {
    PRILLBOOK_ASSIGN(const double number, checked(list[i], fmt::format("{}[{}]", path, i), domain));
    numbers.push_back(number);
  }
  return numbers;
}

}  // namespace

Result<JsonInput> JsonInput::object(const nlohmann::json& value, std::string path) {
  if (!value.is_object())
    return Error{ErrorCode::wrong_type, path, fmt::format("{}an object is needed", path.empty() ? "" : path + ": "), {}};
  return JsonInput(value, std::move(path));
}

bool JsonInput::has(std::string_view key) const { return value_->contains(key); }

std::string JsonInput::path_of(std::string_view key) const {
  return path_.empty() ? std::string(key) : fmt::format("{}.{}", path_, key);
}

Error JsonInput::error(ErrorCode code, std::string_view key, std::string detail) const {
  return {code, path_of(key), std::move(detail), {}};
}

const nlohmann::json* JsonInput::raw(std::string_view key) {
  known_.emplace(key);
  const auto found = value_->find(key);
  return found == value_->end() ? nullptr : &*found;
}

Result<double> JsonInput::number(std::string_view key, Domain domain) {
  const nlohmann::json* value = raw(key);
  if (!value) return error(ErrorCode::missing_key, key, fmt::format("{} is missing", path_of(key)));
  return checked(*value, path_of(key), domain);
}

Result<std::optional<double>> JsonInput::optional_number(std::string_view key, Domain domain) {
  const nlohmann::json* value = raw(key);
  if (!value) return std::optional<double>{};
  PRILLBOOK_ASSIGN(const double number, checked(*value, path_of(key), domain));
  return std::optional<double>{number};
}

Result<double> JsonInput::number_or(std::string_view key, double fallback, Domain domain) {
  const nlohmann::json* value = raw(key);
  if (!value) return fallback;
  return checked(*value, path_of(key), domain);
}

Result<std::vector<double>> JsonInput::number_or_list(std::string_view key, Domain domain) {
  const nlohmann::json* value = raw(key);
  if (value && value->is_array()) return numbers(key, domain);
  PRILLBOOK_ASSIGN(const double one, number(key, domain));
  return std::vector<double>{one};
}

Result<std::vector<double>> JsonInput::numbers(std::string_view key, Domain domain, std::size_t least) {
  const nlohmann::json* value = raw(key);
  if (!value) return error(ErrorCode::missing_key, key, fmt::format("{} is missing", path_of(key)));
  if (!value->is_array()) return error(ErrorCode::wrong_type, key, fmt::format("{}: a list of numbers is needed", path_of(key)));
  if (value->size() < least)
    return error(ErrorCode::too_small, key, fmt::format("{}: at least {} values are needed", path_of(key), least));
  return checked_list(*value, path_of(key), domain);
}

Result<bool> JsonInput::flag(std::string_view key, bool fallback) {
  const nlohmann::json* value = raw(key);
  if (!value) return fallback;
  if (!value->is_boolean()) return error(ErrorCode::wrong_type, key, fmt::format("{}: true or false is needed", path_of(key)));
  return value->get<bool>();
}

Result<std::string> JsonInput::text(std::string_view key) {
  const nlohmann::json* value = raw(key);
  if (!value) return error(ErrorCode::missing_key, key, fmt::format("{} is missing", path_of(key)));
  if (!value->is_string()) return error(ErrorCode::wrong_type, key, fmt::format("{}: a text is needed", path_of(key)));
  return value->get<std::string>();
}

Result<std::optional<std::string>> JsonInput::optional_text(std::string_view key) {
  if (!has(key)) {
    raw(key);
    return std::optional<std::string>{};
  }
  PRILLBOOK_ASSIGN(std::string value, text(key));
  return std::optional<std::string>{std::move(value)};
}

Result<JsonInput> JsonInput::child(std::string_view key) {
  const nlohmann::json* value = raw(key);
  if (!value) return error(ErrorCode::missing_key, key, fmt::format("{} is missing", path_of(key)));
  return object(*value, path_of(key));
}

Result<std::vector<JsonInput>> JsonInput::children(std::string_view key) {
  const nlohmann::json* value = raw(key);
  if (!value) return error(ErrorCode::missing_key, key, fmt::format("{} is missing", path_of(key)));
  if (!value->is_array()) return error(ErrorCode::wrong_type, key, fmt::format("{}: a list of objects is needed", path_of(key)));
  std::vector<JsonInput> result;
  for (std::size_t i = 0; i < value->size(); ++i) {
    PRILLBOOK_ASSIGN(JsonInput one, object((*value)[i], fmt::format("{}[{}]", path_of(key), i)));
    result.push_back(std::move(one));
  }
  return result;
}

Result<void> JsonInput::finish() const {
  for (const auto& [key, value] : value_->items())
    if (!known_.contains(key))
      return Error{ErrorCode::unknown_key, path_of(key), fmt::format("{} is not a key of this verb", path_of(key)), {}};
  return {};
}

Result<nlohmann::json> parse_json(std::string_view text) {
  std::vector<std::set<std::string>> open;  // keys seen in each object that is being read
  std::string twice;
  const auto refuse_duplicates = [&](int, nlohmann::json::parse_event_t event, nlohmann::json& parsed) {
    if (event == nlohmann::json::parse_event_t::object_start) open.emplace_back();
    if (event == nlohmann::json::parse_event_t::object_end) open.pop_back();
    if (event == nlohmann::json::parse_event_t::key && !open.back().insert(parsed.get<std::string>()).second)
      twice = parsed.get<std::string>();
    return true;
  };
  nlohmann::json value = nlohmann::json::parse(text, refuse_duplicates, false);
  if (value.is_discarded()) return Error{ErrorCode::malformed_json, "", "the input is not one complete JSON value", {}};
  if (!twice.empty())
    return Error{ErrorCode::malformed_json, twice, fmt::format("the key {} stands twice in one object", twice), {}};
  return value;
}

}  // namespace prillbook
