// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/readings/reading.h"

#include <fmt/format.h>

#include <algorithm>
#include <charconv>
#include <cmath>
#include <nlohmann/json.hpp>

#include "core/base/text.h"
#include "core/units/units.h"

namespace prillbook::readings {
namespace {

using nlohmann::json;

struct Understood {
  Rational in_base;
  std::string_view symbol;  // of the table of units
};

template <class D>
std::optional<Understood> understood(const Unit<D>* unit) {
  if (!unit) return std::nullopt;
  return Understood{unit->in_base, unit->symbol};
}

const Unit<GradeDimension>* grade_unit_by_symbol(std::string_view symbol) {
  static constexpr const Unit<GradeDimension>* known[] = {&unit::gram_per_tonne,         &unit::ppm,
                                                          &unit::milligram_per_kilogram, &unit::ounce_per_short_ton,
                                                          &unit::ounce_per_long_ton,     &unit::milligram_in_hundred_gram};
  for (const Unit<GradeDimension>* one : known)
    if (one->symbol == symbol) return one;
  return nullptr;
}

std::optional<Understood> find_unit(Measure measure, std::string_view symbol) {
  switch (measure) {
    case Measure::mass: return understood(find_mass_unit(symbol));
    case Measure::fineness: return understood(find_fineness_unit(symbol));
    case Measure::opening: return understood(find_opening_unit(symbol));
    case Measure::share: return symbol == "%" ? understood(&unit::percent) : std::nullopt;
    case Measure::grade: return understood(grade_unit_by_symbol(symbol));
  }
  return std::nullopt;
}

bool means_none(std::string_view text) {
  if (text.size() > std::string_view("none seen").size()) return false;
  const std::string word = lower_ascii(text);
  return word == "none" || word == "nil" || word == "none seen";
}

Error refused(ErrorCode code, std::string_view text, std::string_view reason) {
  return {code, "", fmt::format("'{}': {}", text, reason), {std::string(text)}};
}

Result<void> check_range(Measure measure, double value, std::string_view text) {
  if (!std::isfinite(value)) return refused(ErrorCode::not_finite, text, "the figure is too large");
  if (value < 0) return refused(ErrorCode::out_of_range, text, "the figure is negative");
  if (measure == Measure::fineness && value > 1000) return refused(ErrorCode::out_of_range, text, "a fineness is at most 1000 ‰");
  if (measure == Measure::share && value > 100) return refused(ErrorCode::out_of_range, text, "a share is at most 100 %");
  return {};
}

std::string_view word(State state) {
  switch (state) {
    case State::measured: return "measured";
    case State::none_seen: return "none_seen";
    case State::below_detection: return "below_detection";
  }
  return "measured";
}

Error damaged(std::string_view cell, std::string_view reason) {
  return {ErrorCode::damaged, "", fmt::format("the reading {} {}", cell, reason), {std::string(cell)}};
}

// What a cell says under the keys we know; others, and what is nested under them, are passed over.
template <class Text>
struct CellOf {
  std::optional<Text> typed, unit, mark, state, answer;
  std::optional<double> value, step_g;
  std::optional<std::int64_t> balance;
};
using Cell = CellOf<std::string>;
using CellView = CellOf<std::string_view>;  // a view into the text of the cell

// Takes the events of nlohmann's reader: notebooks are read cell by cell, and a tree for each would cost more than the rest.
class CellReader {
 public:
  explicit CellReader(Cell& cell) : cell_(cell) {}

  bool start_object(std::size_t) { return opened(); }
  bool end_object() { return --depth_, true; }
  bool start_array(std::size_t) { return depth_ > 0 && opened(); }
  bool end_array() { return --depth_, true; }
  bool key(std::string& name) {
    if (depth_ == 1) key_ = name;
    return true;
  }
  bool string(std::string& value) {
    std::optional<std::string>* const kept = words();
    if (kept) *kept = std::move(value);
    return kept || passed_over();
  }
  bool number_integer(std::int64_t value) { return whole(value); }
  bool number_unsigned(std::uint64_t value) { return value > INT64_MAX ? number(double(value)) : whole(std::int64_t(value)); }
  bool number_float(double value, const std::string&) { return number(value); }
  bool null() { return passed_over(); }
  bool boolean(bool) { return passed_over(); }
  bool binary(json::binary_t&) { return false; }
  template <class Exception>
  bool parse_error(std::size_t, const std::string&, const Exception&) {
    return false;
  }

 private:
  bool at(std::string_view name) const { return depth_ == 1 && key_ == name; }
  std::optional<std::string>* words() {
    if (at("typed")) return &cell_.typed;
    if (at("unit")) return &cell_.unit;
    if (at("mark")) return &cell_.mark;
    if (at("state")) return &cell_.state;
    return at("answer") ? &cell_.answer : nullptr;
  }
  std::optional<double>* figures() { return at("value") ? &cell_.value : at("step_g") ? &cell_.step_g : nullptr; }
  // A known key has the type that it is written with, or the cell is damaged; so is one that is no object.
  bool passed_over() { return depth_ > 0 && !words() && !figures() && !at("balance"); }
  bool opened() {
    const bool allowed = depth_ == 0 || passed_over();
    ++depth_;
    return allowed;
  }
  bool number(double value) {
    std::optional<double>* const kept = figures();
    if (kept) *kept = value;
    return kept || passed_over();
  }
  bool whole(std::int64_t value) {
    if (!at("balance")) return number(double(value));
    cell_.balance = value;
    return true;
  }

  Cell& cell_;
  int depth_ = 0;
  std::string key_;
};

// Takes a text apart from its front.
class Scanner {
 public:
  explicit Scanner(std::string_view text) : text_(text) {}

  std::string_view rest() const { return text_; }
  bool take(std::string_view expected) {
    const bool there = text_.starts_with(expected);
    if (there) text_.remove_prefix(expected.size());
    return there;
  }
  // Up to the closing quote; nothing that JSON writes with a backslash.
  bool take_word(std::optional<std::string_view>& word) {
    const auto special = [](char c) { return static_cast<unsigned char>(c) < 0x20 || c == '"' || c == '\\'; };
    const auto end = std::find_if(text_.begin(), text_.end(), special);
    if (end == text_.end() || *end != '"') return false;
    word = text_.substr(0, std::size_t(end - text_.begin()));
    text_.remove_prefix(word->size() + 1);
    return is_utf8(*word);
  }
  // "22", "0.022", "2.2e-05": what JSON calls a number, without a sign before it.
  template <class Number>
  bool take_number(std::optional<Number>& number) {
    std::size_t end = digits_from(0);
    if (end == 0 || (text_[0] == '0' && end > 1)) return false;
    if (end < text_.size() && text_[end] == '.') {
      const std::size_t point = end + 1;
      end = digits_from(point);
      if (end == point) return false;
    }
    if (end < text_.size() && text_[end] == 'e') {
      const std::size_t first = end + 1 + (end + 1 < text_.size() && (text_[end + 1] == '-' || text_[end + 1] == '+'));
      end = digits_from(first);
      if (end == first) return false;
    }
    Number value{};
    const auto [last, fault] = std::from_chars(text_.data(), text_.data() + end, value);
    if (fault != std::errc() || last != text_.data() + end) return false;
    number = value;
    text_.remove_prefix(end);
    return true;
  }

 private:
  std::size_t digits_from(std::size_t at) const {
    while (at < text_.size() && text_[at] >= '0' && text_[at] <= '9') ++at;
    return at;
  }

  std::string_view text_;
};

// The cell as encode() writes most of them: measured, without an answer. Anything else is left to the reader of JSON.
std::optional<CellView> usual_cell(std::string_view text) {
  CellView cell;
  Scanner scanner(text);
  bool usual = scanner.take(R"({"typed":")") && scanner.take_word(cell.typed);
  usual = usual && scanner.take(R"(,"unit":")") && scanner.take_word(cell.unit);
  if (usual && scanner.take(R"(,"mark":")")) usual = scanner.take_word(cell.mark);
  usual = usual && scanner.take(R"(,"value":)") && scanner.take_number(cell.value);
  if (usual && scanner.take(R"(,"balance":)")) usual = scanner.take_number(cell.balance);
  if (usual && scanner.take(R"(,"step_g":)")) usual = scanner.take_number(cell.step_g);
  return usual && scanner.rest() == "}" ? std::optional(cell) : std::nullopt;
}

CellView view_of(const Cell& held) {
  return {held.typed, held.unit, held.mark, held.state, held.answer, held.value, held.step_g, held.balance};
}

// `text` is the whole cell.
Result<Reading> reading_of(const CellView& held, std::string_view text, Measure measure) {
  if (!held.typed || !held.unit || !held.value) return damaged(text, "is incomplete");
  const DecimalMark preferred = held.mark == "," ? DecimalMark::comma : DecimalMark::point;
  auto reading = parse(*held.typed, {measure, *held.unit, preferred, true});
  if (!reading.ok() || reading->value != *held.value || word(reading->state) != held.state.value_or("measured") ||
      reading->unit != *held.unit)
    return damaged(text, "does not say what was typed");
  if (held.balance) reading->balance = BalanceId{*held.balance};
  reading->step_g = held.step_g;
  if (held.answer) reading->answer = *held.answer;
  return reading;
}

}  // namespace

Mass Reading::mass() const { return measure == Measure::mass ? Mass(value, unit::gram) : Mass(); }
Fineness Reading::fineness() const { return measure == Measure::fineness ? Fineness(value, unit::permil) : Fineness(); }
Opening Reading::opening() const { return measure == Measure::opening ? Opening(value, unit::micrometre) : Opening(); }
Share Reading::share() const { return measure == Measure::share ? Share(value, unit::percent) : Share(); }
Grade Reading::grade() const { return measure == Measure::grade ? Grade(value, unit::gram_per_tonne) : Grade(); }

std::string_view base_unit(Measure measure) {
  switch (measure) {
    case Measure::mass: return "g";
    case Measure::fineness: return "‰";
    case Measure::opening: return "µm";
    case Measure::share: return "%";
    case Measure::grade: return "g/t";
  }
  return "";
}

Result<Reading> parse(std::string_view text, const Expectation& expectation) {
  text = trimmed(text);
  if (text.empty()) return Error{ErrorCode::missing_key, "", "no figure was typed", {}};
  if (!is_utf8(text)) return Error{ErrorCode::not_a_number, "", "the text holds bytes that are no text", {}};
  Reading reading;
  reading.measure = expectation.measure;
  reading.typed = std::string(text);
  reading.mark = expectation.preferred;
  if (means_none(text)) {
    if (!expectation.zero_allowed) return refused(ErrorCode::out_of_range, text, "a figure above zero is needed");
    reading.state = State::none_seen;
    reading.unit = std::string(expectation.unit);
    return reading;
  }
  std::string_view figure = text;
  if (figure.front() == '<') {
    reading.state = State::below_detection;
    figure.remove_prefix(1);
  }
  PRILLBOOK_ASSIGN(const TypedNumber number, parse_number(figure, expectation.preferred));
  const std::string_view symbol = number.rest.empty() ? expectation.unit : number.rest;
  const auto unit = find_unit(expectation.measure, symbol);
  if (!unit) return Error{ErrorCode::unknown_unit, "", fmt::format("'{}' is no unit here", symbol), {std::string(symbol)}};
  reading.mark = number.mark;
  reading.unit = unit->symbol;
  reading.value = scaled(number.value, unit->in_base);
  PRILLBOOK_TRY(check_range(reading.measure, reading.value, text));
  if (reading.value == 0 && !expectation.zero_allowed)
    return refused(ErrorCode::out_of_range, text, "a figure above zero is needed");
  return reading;
}

std::string encode(const Reading& reading) {
  std::string cell;
  const auto begin = [&](const char* key) {
    cell += cell.empty() ? "{\"" : ",\"";
    cell.append(key).append("\":");
  };
  const auto add_text = [&](const char* key, std::string_view text) {
    begin(key);
    if (!append_plain_json(cell, text)) cell += json(text).dump();
  };
  const auto add = [&](const char* key, const auto& number) {
    begin(key);
    cell += json(number).dump();
  };
  add_text("typed", reading.typed);
  add_text("unit", reading.unit);
  if (reading.mark == DecimalMark::comma) add_text("mark", ",");
  if (reading.state != State::measured) add_text("state", word(reading.state));
  add("value", reading.value);
  if (reading.balance) add("balance", reading.balance->value);
  if (reading.step_g) add("step_g", *reading.step_g);
  if (reading.answer) add_text("answer", *reading.answer);
  return cell + "}";
}

Result<Reading> decode(std::string_view cell, Measure measure) {
  if (const auto usual = usual_cell(cell)) return reading_of(*usual, cell, measure);
  Cell held;
  CellReader reader(held);
  if (!json::sax_parse(cell, &reader)) return damaged(cell, "is no reading");
  return reading_of(view_of(held), cell, measure);
}

}  // namespace prillbook::readings
