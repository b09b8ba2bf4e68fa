// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/readings/reading.h"

#include <fmt/format.h>

#include <cmath>
#include <nlohmann/json.hpp>

#include "core/base/text.h"
#include "core/units/units.h"

namespace prillbook::readings {
namespace {

using nlohmann::json;

struct Understood {
  Rational in_base;
  std::string symbol;
};

template <class D>
std::optional<Understood> understood(const Unit<D>* unit) {
  if (!unit) return std::nullopt;
  return Understood{unit->in_base, std::string(unit->symbol)};
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

// Leaves `out` alone where the key is absent; false where it is there with another type.
template <class T>
bool take(const json& object, const char* key, T& out) {
  const auto found = object.find(key);
  if (found == object.end()) return true;
  if constexpr (std::is_same_v<T, std::optional<std::string>>) {
    if (!found->is_string()) return false;
    out = found->template get<std::string>();
  } else if constexpr (std::is_same_v<T, std::optional<double>>) {
    if (!found->is_number()) return false;
    out = found->template get<double>();
  } else {
    if (!found->is_number_integer()) return false;
    out = BalanceId{found->template get<std::int64_t>()};
  }
  return true;
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
  const json object = json::parse(cell, nullptr, false);
  if (!object.is_object()) return damaged(cell, "is no reading");
  std::optional<std::string> typed, unit, mark, state;
  std::optional<double> value;
  Reading reading;
  const bool well_typed = take(object, "typed", typed) && take(object, "unit", unit) && take(object, "mark", mark) &&
                          take(object, "state", state) && take(object, "value", value) &&
                          take(object, "balance", reading.balance) && take(object, "step_g", reading.step_g) &&
                          take(object, "answer", reading.answer);
  if (!well_typed || !typed || !unit || !value) return damaged(cell, "is incomplete");
  const DecimalMark preferred = mark == "," ? DecimalMark::comma : DecimalMark::point;
  const auto again = parse(*typed, {measure, *unit, preferred, true});
  if (!again.ok() || again->value != *value || word(again->state) != state.value_or("measured") || again->unit != *unit)
    return damaged(cell, "does not say what was typed");
  reading.measure = measure;
  reading.typed = again->typed;
  reading.unit = again->unit;
  reading.mark = again->mark;
  reading.state = again->state;
  reading.value = again->value;
  return reading;
}

}  // namespace prillbook::readings
