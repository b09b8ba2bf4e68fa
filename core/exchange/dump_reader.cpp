// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/exchange/dump_reader.h"

#include <fmt/format.h>

#include <algorithm>
#include <limits>
#include <nlohmann/json.hpp>
#include <optional>

#include "core/exchange/notebook_dump.h"

namespace prillbook::exchange {
namespace {

using nlohmann::json;

enum class Place { outside, top, tables, table, table_row, contents, content_row, history, history_row, done };

// The events of the JSON text against the one shape that a dump has. An event that gives false ends the reading; the
// reason is in outcome().
class Shape : public json::json_sax_t {
 public:
  explicit Shape(DumpTaker& taker) : taker_(taker) {}

  Result<void> outcome() const { return outcome_; }

  bool null() override { return wrong_type("nothing"); }
  bool boolean(bool) override { return wrong_type("a truth value"); }
  bool number_float(json::number_float_t, const json::string_t&) override { return wrong_type("a number that is not whole"); }
  bool binary(json::binary_t&) override { return wrong_type("bytes"); }
  bool number_integer(json::number_integer_t number) override { return value(std::int64_t{number}); }
  bool number_unsigned(json::number_unsigned_t number) override {
    if (number > static_cast<json::number_unsigned_t>(std::numeric_limits<std::int64_t>::max()))
      return fail(ErrorCode::out_of_range, "the number is too large");
    return value(static_cast<std::int64_t>(number));
  }
  bool string(json::string_t& text) override {
    if (text.find('\0') != std::string::npos) return wrong_type("a text with a zero in it");
    return value(std::move(text));
  }
  bool key(json::string_t& name) override;
  bool start_object(std::size_t) override;
  bool end_object() override;
  bool start_array(std::size_t) override;
  bool end_array() override;
  bool parse_error(std::size_t at, const std::string&, const json::exception& fault) override {
    outcome_ = Error{ErrorCode::malformed_json, "", fmt::format("byte {}: {}", at, fault.what()), {}};
    return false;
  }

 private:
  bool value(store::Value value);
  bool header(const store::Value& value);
  bool begin_section();
  std::string path() const;
  bool fail(ErrorCode code, std::string_view reason) {
    outcome_ = Error{code, path(), fmt::format("{}: {}", path(), reason), {}};
    return false;
  }
  bool wrong_type(std::string_view what) { return fail(ErrorCode::wrong_type, fmt::format("{} does not belong here", what)); }
  // The taker names the key; its place in the text is known here.
  bool taken(const Result<void>& outcome) {
    if (outcome) return true;
    Error error = outcome.error();
    const std::string& field = error.field;
    key_ = field.empty() ? "id" : field.substr(field.rfind('.') + 1);
    error.field = path();
    outcome_ = std::move(error);
    return false;
  }

  DumpTaker& taker_;
  Result<void> outcome_;
  Place place_ = Place::outside;
  std::string key_;    // the last one at the top or in a row
  std::string table_;  // the one being read
  std::vector<std::string> seen_;
  std::vector<std::string> tables_seen_;
  std::optional<std::int64_t> schema_version_;
  bool format_seen_ = false, format_version_seen_ = false;
  bool tables_read_ = false, history_read_ = false;
  std::int64_t row_number_ = 0;
  DumpRow row_;
};

std::string Shape::path() const {
  switch (place_) {
    case Place::tables:
    case Place::table: return fmt::format("tables.{}", table_);
    case Place::table_row: return fmt::format("tables.{}[{}].{}", table_, row_number_, key_);
    case Place::contents: return "contents";
    case Place::content_row: return fmt::format("contents[{}].{}", row_number_, key_);
    case Place::history: return "history";
    case Place::history_row: return fmt::format("history[{}].{}", row_number_, key_);
    case Place::outside:
    case Place::top:
    case Place::done: break;
  }
  return key_;
}

bool Shape::key(json::string_t& name) {
  if (place_ == Place::tables) {
    table_ = name;
    if (std::find(tables_seen_.begin(), tables_seen_.end(), name) != tables_seen_.end())
      return fail(ErrorCode::conflict, "the table is given twice");
    tables_seen_.push_back(name);
    return true;
  }
  key_ = name;
  if (place_ == Place::top) {
    if (std::find(seen_.begin(), seen_.end(), name) != seen_.end()) return fail(ErrorCode::conflict, "the key is given twice");
    seen_.push_back(name);
    return true;
  }
  const bool twice = std::any_of(row_.begin(), row_.end(), [&](const auto& cell) { return cell.first == name; });
  return twice ? fail(ErrorCode::conflict, "the key is given twice") : true;
}

bool Shape::value(store::Value value) {
  if (place_ == Place::top) return header(value);
  if (place_ != Place::table_row && place_ != Place::content_row && place_ != Place::history_row)
    return wrong_type("a single value");
  row_.emplace_back(key_, std::move(value));
  return true;
}

bool Shape::header(const store::Value& value) {
  const auto* number = std::get_if<std::int64_t>(&value);
  if (key_ == "format") {
    format_seen_ = value == store::Value(std::string(notebook_format));
    return format_seen_ ? true : fail(ErrorCode::inconsistent, "this is no dump of a notebook");
  }
  if (key_ == "format_version") {
    if (!number) return wrong_type("a text");
    format_version_seen_ = *number == notebook_format_version;
    return format_version_seen_ ? true : fail(ErrorCode::newer_version, "the format is not known");
  }
  if (key_ == "schema_version") {
    if (!number) return wrong_type("a text");
    schema_version_ = *number;
    return true;
  }
  if (key_ == "tables" || key_ == "contents" || key_ == "history") return wrong_type("a single value");
  return fail(ErrorCode::unknown_key, "the key is not known");
}

// What is needed before the first row can be taken.
bool Shape::begin_section() {
  if (!format_seen_ || !format_version_seen_ || !schema_version_)
    return fail(ErrorCode::missing_key, "format, format_version and schema_version come first");
  return true;
}

bool Shape::start_object(std::size_t) {
  row_.clear();
  switch (place_) {
    case Place::outside: place_ = Place::top; return true;
    case Place::top:
      if (key_ != "tables") return wrong_type("an object");
      if (!begin_section() || !taken(taker_.begin(*schema_version_))) return false;
      place_ = Place::tables;
      return true;
    case Place::table:
      place_ = Place::table_row;
      key_ = "id";
      return true;
    case Place::contents:
      place_ = Place::content_row;
      key_ = "hash";
      return true;
    case Place::history:
      place_ = Place::history_row;
      key_ = "id";
      return true;
    default: return wrong_type("an object");
  }
}

bool Shape::end_object() {
  switch (place_) {
    case Place::table_row:
      if (!taken(taker_.table_row(row_))) return false;
      ++row_number_;
      place_ = Place::table;
      return true;
    case Place::content_row:
      if (!taken(taker_.content_row(row_))) return false;
      ++row_number_;
      place_ = Place::contents;
      return true;
    case Place::history_row:
      if (!taken(taker_.history_row(row_))) return false;
      ++row_number_;
      place_ = Place::history;
      return true;
    case Place::tables:
      tables_read_ = true;
      place_ = Place::top;
      return true;
    default:
      if (!tables_read_ || !history_read_) return fail(ErrorCode::missing_key, "the dump needs tables and history");
      place_ = Place::done;
      return true;
  }
}

bool Shape::start_array(std::size_t) {
  row_number_ = 0;
  if (place_ == Place::tables) {
    place_ = Place::table;
    return taken(taker_.begin_table(table_));
  }
  if (place_ == Place::top && key_ == "contents") {
    if (!tables_read_ || history_read_) return fail(ErrorCode::missing_key, "contents stand between tables and history");
    place_ = Place::contents;
    return true;
  }
  if (place_ == Place::top && key_ == "history") {
    if (!tables_read_) return fail(ErrorCode::missing_key, "tables come before the history");
    place_ = Place::history;
    return true;
  }
  return wrong_type("a list");
}

bool Shape::end_array() {
  if (place_ == Place::history) history_read_ = true;
  place_ = place_ == Place::table ? Place::tables : Place::top;
  return true;
}

}  // namespace

Result<void> read_dump(std::istream& dump, DumpTaker& taker) {
  Shape shape(taker);
  const bool read = json::sax_parse(dump, &shape);
  if (!shape.outcome()) return shape.outcome();
  if (!read) return Error{ErrorCode::malformed_json, "", "the dump can not be read", {}};
  return {};
}

}  // namespace prillbook::exchange
