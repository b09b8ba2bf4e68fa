// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/sieving/sieve_name.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <utility>

#include "core/base/text.h"
#include "core/units/units.h"

namespace prillbook {
namespace {

constexpr std::pair<std::string_view, SieveSeries> series_names[] = {{"astm", SieveSeries::astm_e11},
                                                                     {"e11", SieveSeries::astm_e11},
                                                                     {"iso", SieveSeries::iso_3310_1},
                                                                     {"3310-1", SieveSeries::iso_3310_1},
                                                                     {"tyler", SieveSeries::tyler}};
constexpr std::string_view idle_words[] = {"mesh", "no.", "no", "nr.", "nr", "#", "sieve"};

std::optional<SieveSeries> named_series(std::string_view word) {
  for (const auto& [name, series] : series_names)
    if (word == name) return series;
  return std::nullopt;
}

// One sieve while the words behind it may still say more about it.
struct Item {
  std::string typed;
  double value = 0;
  const Unit<OpeningDimension>* unit = nullptr;
  std::optional<SieveSeries> series;
};

std::vector<std::string> words_of(std::string_view text) {
  std::vector<std::string> words(1);
  for (std::size_t i = 0; i < text.size(); ++i) {
    const char c = text[i];
    const bool last = i + 1 == text.size();
    const bool apart = c == ' ' || c == '\t' || c == '\n' || c == ';' || c == '+' ||
                       (c == ',' && (last || text[i + 1] == ' ' || text[i + 1] == '\n'));
    if (apart || c == '#') {
      if (!words.back().empty()) words.emplace_back();
    } else {
      words.back() += c;
    }
  }
  if (words.back().empty()) words.pop_back();
  return words;
}

class Reader {
 public:
  explicit Reader(DecimalMark preferred) : preferred_(preferred) {}

  Result<void> take(const std::string& word) {
    const std::string small = lower_ascii(word);
    if (std::find(std::begin(idle_words), std::end(idle_words), small) != std::end(idle_words)) return {};
    if (const auto series = named_series(small)) {
      items.empty() ? void(leading = series) : give_series(*series);
      return {};
    }
    if (const auto* unit = find_opening_unit(word)) {
      for (std::size_t i = items.size(); i-- > 0 && !items[i].unit && !items[i].series;) items[i].unit = unit;
      return {};
    }
    if (small == "1/2" && !items.empty() && !items.back().unit) {
      items.back().value += 0.5;
      items.back().typed = shortest(items.back().value);
      return {};
    }
    return number(word);
  }

  std::vector<Item> items;
  std::optional<SieveSeries> leading;

 private:
  void give_series(SieveSeries series) {
    const bool sized = items.back().unit != nullptr;
    for (std::size_t i = items.size(); i-- > 0 && !items[i].series && (items[i].unit != nullptr) == sized;)
      items[i].series = series;
  }

  Result<void> number(const std::string& word) {
    auto typed = parse_number(word, preferred_);
    if (!typed) {
      Error error = typed.error();
      error.field = "sieve.name";
      if (error.arguments.empty()) error.arguments = {word};
      return error;
    }
    Item item{typed->digits, typed->value, nullptr, std::nullopt};
    if (!typed->rest.empty()) {
      item.unit = find_opening_unit(typed->rest);
      if (!item.unit)
        return Error{ErrorCode::unknown_unit, "sieve.name", word + " has no unit of length", {std::string(typed->rest)}};
    }
    if (!(typed->value > 0) || !std::isfinite(typed->value))
      return Error{ErrorCode::out_of_range, "sieve.name", "an opening is above 0", {word}};
    items.push_back(std::move(item));
    return {};
  }

  DecimalMark preferred_;
};

Result<NamedSieve> understood(const Item& item, std::optional<SieveSeries> usual, DecimalMark mark) {
  const auto series = item.series ? item.series : usual;
  if (item.unit) {
    const Opening opening(item.value, *item.unit);
    if (!std::isfinite(opening.in(unit::micrometre)))
      return Error{ErrorCode::not_finite, "sieve.name", "the opening is too large", {item.typed}};
    return NamedSieve{opening_in_words(opening), series, opening};
  }
  const std::string number = shortest(item.value);
  if (!series) {
    const std::string meanings = mesh_meanings(number, mark);
    if (meanings.empty()) return Error{ErrorCode::not_found, "sieve.name", "no series has the number " + number, {number}};
    return Error{ErrorCode::ambiguous,
                 "sieve.series",
                 fmt::format("mesh {} without its series: {}", number, meanings),
                 {number, meanings}};
  }
  if (const auto opening = mesh_opening(*series, number)) return NamedSieve{number, series, *opening};
  return Error{ErrorCode::not_found,
               "sieve.name",
               fmt::format("{} has no number {}", series_words(*series), number),
               {fmt::format("{} {}", number, series_words(*series))}};
}

}  // namespace

Result<std::vector<NamedSieve>> read_sieve_names(std::string_view text, std::optional<SieveSeries> series,
                                                 DecimalMark preferred) {
  if (!is_utf8(text)) return Error{ErrorCode::not_a_number, "sieve.name", "the text holds bytes that are no text", {}};
  Reader reader(preferred);
  for (const std::string& word : words_of(text)) PRILLBOOK_TRY(reader.take(word));
  if (reader.items.empty()) return Error{ErrorCode::missing_key, "sieve.name", "no sieve was named", {}};
  std::vector<NamedSieve> sieves;
  for (const Item& item : reader.items) {
    PRILLBOOK_ASSIGN(NamedSieve sieve, understood(item, reader.leading ? reader.leading : series, preferred));
    for (const NamedSieve& other : sieves)
      if (other.opening == sieve.opening)
        return Error{ErrorCode::conflict, "sieve.name", "one opening stands twice", {opening_in_words(sieve.opening, preferred)}};
    sieves.push_back(std::move(sieve));
  }
  return sieves;
}

Result<NamedSieve> read_sieve_name(std::string_view text, std::optional<SieveSeries> series, DecimalMark preferred) {
  PRILLBOOK_ASSIGN(std::vector<NamedSieve> sieves, read_sieve_names(text, series, preferred));
  if (sieves.size() > 1)
    return Error{ErrorCode::wrong_type, "sieve.name", "more than one sieve was named", {std::string(trimmed(text))}};
  return std::move(sieves.front());
}

std::string_view contract_name(SieveSeries series) {
  switch (series) {
    case SieveSeries::astm_e11: return "astm_e11";
    case SieveSeries::iso_3310_1: return "iso_3310_1";
    case SieveSeries::tyler: return "tyler";
  }
  return "";
}

std::string_view series_words(SieveSeries series) {
  switch (series) {
    case SieveSeries::astm_e11: return "ASTM E11";
    case SieveSeries::iso_3310_1: return "ISO 3310-1";
    case SieveSeries::tyler: return "Tyler";
  }
  return "";
}

std::string opening_in_words(Opening opening, DecimalMark mark) {
  const bool wide = opening.in(unit::micrometre) >= 1000;
  const double value = wide ? opening.in(unit::millimetre) : opening.in(unit::micrometre);
  std::string digits = shortest(std::round(value * 1e6) / 1e6);
  if (mark == DecimalMark::comma) std::replace(digits.begin(), digits.end(), '.', ',');
  return fmt::format("{} {}", digits, wide ? unit::millimetre.symbol : unit::micrometre.symbol);
}

std::string size_in_words(Opening size, DecimalMark mark) {
  const bool wide = size.in(unit::micrometre) >= 999.5;
  const double value = wide ? size.in(unit::millimetre) : size.in(unit::micrometre);
  const int decimals = value >= 99.95 ? 0 : value >= 9.995 ? 1 : 2;
  return fmt::format("{} {}", fixed(value, decimals, mark), wide ? unit::millimetre.symbol : unit::micrometre.symbol);
}

std::string sieve_in_words(std::string_view name, std::optional<SieveSeries> series, Opening opening, DecimalMark mark) {
  const std::string words = opening_in_words(opening, mark);
  const bool by_number =
      !name.empty() && std::all_of(name.begin(), name.end(), [](char c) { return (c >= '0' && c <= '9') || c == '.'; });
  if (!series) return words;
  return by_number ? fmt::format("{} ({} {})", words, name, series_words(*series))
                   : fmt::format("{} ({})", words, series_words(*series));
}

std::string mesh_meanings(std::string_view number, DecimalMark mark) {
  const auto astm = mesh_opening(SieveSeries::astm_e11, number), tyler = mesh_opening(SieveSeries::tyler, number);
  if (astm && tyler && *astm == *tyler) return fmt::format("{} in ASTM E11 and in Tyler", opening_in_words(*astm, mark));
  std::string words;
  if (astm) words = opening_in_words(*astm, mark) + " in ASTM E11";
  if (tyler) words += fmt::format("{}{} in Tyler", words.empty() ? "" : " or ", opening_in_words(*tyler, mark));
  return words;
}

std::vector<Opening> sizes_between(SieveSeries series, Opening finer, Opening coarser) {
  std::vector<Opening> sizes;
  const auto add = [&](Opening size) {
    const bool inside = size > finer * (1 + 1e-4) && size < coarser * (1 - 1e-4);
    if (inside && std::find(sizes.begin(), sizes.end(), size) == sizes.end()) sizes.push_back(size);
  };
  for (const Opening size : nominal_openings(series)) add(size);
  std::sort(sizes.begin(), sizes.end(), std::greater<>());
  return sizes;
}

}  // namespace prillbook
