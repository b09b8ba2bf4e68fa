// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/base/number.h"

#include <fmt/format.h>

#include <algorithm>
#include <charconv>
#include <cmath>
#include <optional>

namespace prillbook {
namespace {

constexpr std::string_view narrow_no_break = "\xE2\x80\xAF", no_break = "\xC2\xA0", thin = "\xE2\x80\x89";
constexpr std::string_view minus_sign = "\xE2\x88\x92";

bool is_digit(char c) { return c >= '0' && c <= '9'; }
bool is_letter(char c) { return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z'); }

// Length of a blank at the start of `text`: a space or one of the no-break blanks; 0 where there is none.
std::size_t blank_length(std::string_view text) {
  if (text.empty()) return 0;
  if (text.front() == ' ' || text.front() == '\t') return 1;
  for (const auto blank : {narrow_no_break, no_break, thin})
    if (text.starts_with(blank)) return blank.size();
  return 0;
}

// The run of digits and marks at the start of a typed number, blanks between groups of three dropped.
struct Run {
  std::string text;          // digits, points, commas
  std::size_t consumed = 0;  // in the source
};

bool three_digits_follow(std::string_view text) {
  return text.size() >= 3 && is_digit(text[0]) && is_digit(text[1]) && is_digit(text[2]) &&
         (text.size() == 3 || !is_digit(text[3]));
}

Run take_run(std::string_view text) {
  Run run;
  while (run.consumed < text.size()) {
    const std::string_view left = text.substr(run.consumed);
    const char c = left.front();
    if (is_digit(c) || c == '.' || c == ',') {
      run.text += c;
      ++run.consumed;
      continue;
    }
    const std::size_t blank = blank_length(left);
    const bool group = blank > 0 && !run.text.empty() && is_digit(run.text.back()) && three_digits_follow(left.substr(blank)) &&
                       run.text.find_first_of(".,") == std::string::npos;
    if (!group) break;
    run.consumed += blank;
  }
  return run;
}

// "1,234,567" or "1.234.567": every group after the first has three digits; the first is no 0.
bool is_grouped(std::string_view text, char group) {
  std::size_t at = text.find(group);
  if (at == 0 || at == std::string_view::npos || at > 3 || text.front() == '0') return false;
  while (at < text.size()) {
    if (text[at] != group || !three_digits_follow(text.substr(at + 1))) return false;
    at += 4;
  }
  return true;
}

std::string without(std::string text, char c) {
  std::erase(text, c);
  return text;
}

struct Understood {
  std::string digits;
  DecimalMark mark;
};

Error not_a_number(std::string_view text) {
  return {ErrorCode::not_a_number, "", fmt::format("'{}' is not a number", text), {std::string(text)}};
}

// Decides which mark is the decimal one. `run` holds digits, points and commas only.
Result<Understood> understand(const std::string& run, DecimalMark preferred) {
  const auto points = std::count(run.begin(), run.end(), '.'), commas = std::count(run.begin(), run.end(), ',');
  if (points == 0 && commas == 0) return Understood{run, preferred};
  if (points > 0 && commas > 0) {
    const char decimal = run.find_last_of(".,") == run.rfind('.') ? '.' : ',';
    const char group = decimal == '.' ? ',' : '.';
    const std::size_t cut = run.find(decimal);
    if (run.rfind(decimal) != cut || !is_grouped(std::string_view(run).substr(0, cut), group)) return not_a_number(run);
    std::string whole = without(run.substr(0, cut), group);
    return Understood{whole + '.' + run.substr(cut + 1), decimal == '.' ? DecimalMark::point : DecimalMark::comma};
  }
  const char mark = points > 0 ? '.' : ',';
  const DecimalMark as = mark == '.' ? DecimalMark::point : DecimalMark::comma;
  if (points + commas > 1) {
    if (!is_grouped(run, mark)) return not_a_number(run);
    return Understood{without(run, mark), as == DecimalMark::point ? DecimalMark::comma : DecimalMark::point};
  }
  const std::size_t cut = run.find(mark);
  std::string decimal = run;
  decimal[cut] = '.';
  if (as != preferred && is_grouped(run, mark))
    return Error{ErrorCode::ambiguous_mark,
                 "",
                 fmt::format("'{}' can mean {} or {}", run, without(run, mark), decimal),
                 {without(run, mark), decimal}};
  return Understood{decimal, as};
}

// Length of "e-3" at the start; 0 where there is no complete exponent.
std::size_t exponent_length(std::string_view text) {
  if (text.empty() || (text[0] != 'e' && text[0] != 'E')) return 0;
  std::size_t at = 1;
  if (at < text.size() && (text[at] == '+' || text[at] == '-')) ++at;
  const std::size_t first = at;
  while (at < text.size() && is_digit(text[at])) ++at;
  return at > first ? at : 0;
}

// Most figures: digits with at most the preferred mark among them, then the end or one blank and a unit. Anything else is left
// to the careful reader; the two never differ.
std::optional<TypedNumber> usual_number(std::string_view text, DecimalMark preferred) {
  const auto digits_end = [&](std::size_t at) {
    while (at < text.size() && is_digit(text[at])) ++at;
    return at;
  };
  const std::size_t whole = digits_end(0);
  const bool marked = whole < text.size() && text[whole] == (preferred == DecimalMark::comma ? ',' : '.');
  const std::size_t end = marked ? digits_end(whole + 1) : whole;
  if (whole == 0 || (marked && end == whole + 1)) return std::nullopt;
  std::string_view rest = text.substr(end);
  if (!rest.empty()) {
    if (rest.size() < 2 || rest[0] != ' ' || !is_letter(rest[1])) return std::nullopt;
    rest.remove_prefix(1);
  }
  TypedNumber number{0, preferred, std::string(text.substr(0, end)), rest};
  if (marked) number.digits[whole] = '.';
  const char* const last = number.digits.data() + number.digits.size();
  const auto read = std::from_chars(number.digits.data(), last, number.value);
  return read.ec == std::errc{} && read.ptr == last ? std::optional(std::move(number)) : std::nullopt;
}

double from_text(const std::string& text) {
  double value = 0;
  std::from_chars(text.data(), text.data() + text.size(), value);
  return value;
}

}  // namespace

std::string_view trimmed(std::string_view text) {
  while (!text.empty()) {
    const std::size_t blank = blank_length(text);
    if (blank > 0)
      text.remove_prefix(blank);
    else if (text.front() == '\n' || text.front() == '\r')
      text.remove_prefix(1);
    else
      break;
  }
  constexpr std::string_view plain = " \t\r\n";
  while (!text.empty()) {
    if (plain.find(text.back()) != std::string_view::npos)
      text.remove_suffix(1);
    else if (text.ends_with(narrow_no_break) || text.ends_with(thin))
      text.remove_suffix(3);
    else if (text.ends_with(no_break))
      text.remove_suffix(2);
    else
      break;
  }
  return text;
}

Result<TypedNumber> parse_number(std::string_view text, DecimalMark preferred) {
  const std::string_view whole = text;
  text = trimmed(text);
  if (auto usual = usual_number(text, preferred)) return *std::move(usual);
  std::string sign;
  if (text.starts_with(minus_sign)) {
    sign = "-";
    text.remove_prefix(minus_sign.size());
  } else if (!text.empty() && (text.front() == '-' || text.front() == '+')) {
    if (text.front() == '-') sign = "-";
    text.remove_prefix(1);
  }
  const Run run = take_run(text);
  if (run.text.find_first_of("0123456789") == std::string::npos) return not_a_number(whole);
  PRILLBOOK_ASSIGN(Understood understood, understand(run.text, preferred));
  text.remove_prefix(run.consumed);
  const std::size_t exponent = exponent_length(text);
  std::string digits = sign + understood.digits;
  if (digits.back() == '.') digits.pop_back();
  const std::size_t point = digits.find('.');
  if (point == sign.size()) digits.insert(point, "0");
  digits += text.substr(0, exponent);
  text.remove_prefix(exponent);

  TypedNumber number{0, understood.mark, digits, trimmed(text)};
  const auto parsed = std::from_chars(digits.data(), digits.data() + digits.size(), number.value);
  if (parsed.ec == std::errc::result_out_of_range || !std::isfinite(number.value))
    return Error{ErrorCode::not_finite, "", fmt::format("'{}' is too large or too small a number", whole), {std::string(whole)}};
  if (parsed.ec != std::errc{} || parsed.ptr != digits.data() + digits.size()) return not_a_number(whole);
  return number;
}

std::string shortest(double value) {
  char buffer[32];
  const auto end = std::to_chars(buffer, buffer + sizeof buffer, value).ptr;
  return {buffer, end};
}

std::string fixed(double value, int decimals, DecimalMark mark) {
  // Round on the shortest decimal text, so that 0.125 gives 0.13 and 2.675 gives 2.68 as a person would round it.
  const double scale = std::pow(10.0, decimals);
  const double scaled = value * scale;
  const double nearest = std::round(std::abs(scaled) < 1e15 ? from_text(fmt::format("{:.15g}", scaled)) : scaled);
  double rounded = nearest / scale;
  if (rounded == 0) rounded = 0;  // no "-0"
  std::string text = fmt::format("{:.{}f}", rounded, decimals);
  if (mark == DecimalMark::comma) std::replace(text.begin(), text.end(), '.', ',');
  return text;
}

}  // namespace prillbook
