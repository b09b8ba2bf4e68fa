// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/history/values.h"

#include <fmt/format.h>

#include <algorithm>
#include <charconv>
#include <nlohmann/json.hpp>

#include "core/base/clock.h"
#include "core/base/text.h"

namespace prillbook::history {
namespace {

// True for an object of plain texts and plain decimals, {"typed":"22 mg","value":0.022}, as nearly every reading is: told
// in a tenth of the time that the library takes. Whatever else it is, the library decides.
class PlainObject {
 public:
  static bool is(std::string_view text) { return PlainObject(text).reads(); }

 private:
  explicit PlainObject(std::string_view text) : rest_(text) {}

  bool reads() {
    if (!takes('{')) return false;
    do {
      if (!takes_text() || !takes(':') || !(takes_text() || takes_number())) return false;
    } while (takes(','));
    return takes('}') && rest_.empty();
  }
  bool takes(char sign) {
    if (!rest_.starts_with(sign)) return false;
    rest_.remove_prefix(1);
    return true;
  }
  bool takes_text() {
    if (!takes('"')) return false;
    const auto plain = [](char c) { return c >= 0x20 && c < 0x7F && c != '"' && c != '\\'; };
    rest_.remove_prefix(std::size_t(std::find_if_not(rest_.begin(), rest_.end(), plain) - rest_.begin()));
    return takes('"');
  }
  bool takes_digits() {
    const std::size_t count = std::min(rest_.find_first_not_of("0123456789"), rest_.size());
    rest_.remove_prefix(count);
    return count > 0;
  }
  bool takes_number() {
    takes('-');
    if (!takes('0') && !takes_digits()) return false;
    return !takes('.') || takes_digits();
  }

  std::string_view rest_;
};

bool is_json(std::string_view text) { return PlainObject::is(text) || nlohmann::json::accept(text); }

}  // namespace

std::string path_of(const Field& field) { return fmt::format("{}.{}", spec_of(field.entity).table, field.column); }

Result<void> check_value(const Field& field, const store::Value& value) {
  if (store::is_null(value)) {
    if (field.required) return Error{ErrorCode::missing_key, path_of(field), fmt::format("{} is needed", path_of(field)), {}};
    return {};
  }
  const bool wants_number = field.kind == FieldKind::whole || field.kind == FieldKind::flag || field.kind == FieldKind::reference;
  if (wants_number != std::holds_alternative<std::int64_t>(value))
    return Error{ErrorCode::wrong_type, path_of(field), fmt::format("{} has the wrong type", path_of(field)), {}};
  if (!wants_number && !is_utf8(std::get<std::string>(value)))
    return Error{ErrorCode::wrong_type, path_of(field), fmt::format("{} holds bytes that are no text", path_of(field)), {}};
  if (field.kind == FieldKind::choice) {
    const auto& text = std::get<std::string>(value);
    if (std::find(field.choices.begin(), field.choices.end(), text) == field.choices.end())
      return Error{
          ErrorCode::out_of_range, path_of(field), fmt::format("{}: '{}' is not one of its words", path_of(field), text), {text}};
  }
  if (field.kind == FieldKind::instant && !parse_iso(std::get<std::string>(value)))
    return Error{ErrorCode::out_of_range, path_of(field), fmt::format("{} is no date and time", path_of(field)), {}};
  if (field.kind == FieldKind::reading && !is_json(std::get<std::string>(value)))
    return Error{ErrorCode::wrong_type, path_of(field), fmt::format("{} is no reading", path_of(field)), {}};
  return {};
}

std::optional<std::vector<std::pair<std::int64_t, store::Value>>> read_made_text(std::string_view text) {
  const auto object = nlohmann::json::parse(text, nullptr, false);
  if (!object.is_object()) return std::nullopt;
  std::vector<std::pair<std::int64_t, store::Value>> fields;
  for (const auto& [key, value] : object.items()) {
    std::int64_t code = 0;
    const auto [end, fault] = std::from_chars(key.data(), key.data() + key.size(), code);
    if (fault != std::errc{} || end != key.data() + key.size()) return std::nullopt;
    if (value.is_number_integer())
      fields.emplace_back(code, value.get<std::int64_t>());
    else if (value.is_string())
      fields.emplace_back(code, value.get<std::string>());
    else
      return std::nullopt;
  }
  return fields;
}

}  // namespace prillbook::history
