// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/summary/figure.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "core/assay/rounding.h"
#include "core/readings/last_place.h"

namespace prillbook::summary {
namespace {

// An interval counts as lopsided where its halves differ by more than this share of the mean half.
constexpr double lopsided = 0.1;

bool is_zero(std::string_view digits) { return digits.find_first_of("123456789") == std::string_view::npos; }

std::string rounded_up(double value, int decimals) {
  const double place = std::pow(10.0, -decimals);
  return rounded(std::ceil(value / place * (1 - 1e-9)) * place, decimals);
}

std::optional<double> three_digits(double value) {
  if (value == 0) return std::nullopt;
  return std::pow(10.0, std::floor(std::log10(std::abs(value))) - 2);
}

Figure without_interval(double value, std::optional<double> step, Figure result, const Speech& say) {
  const auto last = step && *step > 0 ? step : three_digits(value);
  result.value = value;
  result.digits = written(value, {}, last);
  result.written = written(value, {}, last, say);
  return result;
}

Figure blank(std::string_view unit, const Speech& say) {
  Figure result;
  result.unit = say.named("unit", unit);
  result.language = say.language();
  return result;
}

}  // namespace

std::string marked(std::string digits, DecimalMark mark) {
  if (mark == DecimalMark::comma) std::replace(digits.begin(), digits.end(), '.', ',');
  return digits;
}

Figure figure(double value, std::optional<double> lo, std::optional<double> hi, std::string_view unit, std::optional<double> step,
              const Speech& say) {
  Figure result = blank(unit, say);
  if (!lo || !hi || !(*hi > *lo)) return without_interval(value, step, std::move(result), say);
  const double half = (*hi - *lo) / 2;
  const int decimals = decimals_for_uncertainty(half);
  result.digits = rounded(value, decimals);
  result.lo_digits = rounded(*lo, decimals);
  result.hi_digits = rounded(*hi, decimals);
  if (is_zero(result.digits) && *lo >= 0) return limit(hi, unit, say);
  result.value = value;
  result.lo = lo;
  result.hi = hi;
  const bool symmetric = std::abs((*hi - value) - (value - *lo)) <= lopsided * half;
  result.written = symmetric ? written(value, half, {}, say)
                             : say("figure.range", {{"value", marked(result.digits, say)},
                                                    {"lo", marked(result.lo_digits, say)},
                                                    {"hi", marked(result.hi_digits, say)}});
  return result;
}

Figure limit(std::optional<double> hi, std::string_view unit, const Speech& say) {
  Figure result = blank(unit, say);
  if (!hi || !(*hi > 0)) {
    result.written = say("figure.none_seen");
    return result;
  }
  result.hi = hi;
  result.hi_digits = rounded_up(*hi, decimals_for_uncertainty(*hi));
  result.written = "< " + marked(result.hi_digits, say);
  return result;
}

Figure grade_figure(const MeasuredGrade& grade, const Unit<GradeDimension>& unit, const Speech& say) {
  const auto in_unit = [&](const std::optional<Grade>& end) { return end ? std::optional(end->in(unit)) : std::nullopt; };
  if (!(grade.value > Grade())) return limit(in_unit(grade.hi), unit.symbol, say);
  return figure(grade.value.in(unit), in_unit(grade.lo), in_unit(grade.hi), unit.symbol, {}, say);
}

Figure mass_figure(const readings::Reading& reading, const Unit<MassDimension>& unit, const Speech& say) {
  const double value = reading.mass().in(unit);
  if (reading.state == readings::State::none_seen) return limit({}, unit.symbol, say);
  const auto place = readings::last_place(reading);
  Figure result =
      figure(value, {}, {}, unit.symbol, place ? std::optional(Mass(*place, unit::gram).in(unit)) : std::nullopt, say);
  if (reading.state != readings::State::below_detection) return result;
  std::swap(result.value, result.hi);
  std::swap(result.digits, result.hi_digits);
  result.written = "< " + result.written;
  return result;
}

std::string as_typed(const readings::Reading& reading, const Speech& say) {
  if (reading.state == readings::State::none_seen) return say("figure.none_seen");
  std::string_view text = trimmed(reading.typed);
  if (text.starts_with('<')) text.remove_prefix(1);
  const auto number = parse_number(trimmed(text), reading.mark);
  const std::string digits = number.ok() ? marked(number->digits, say) : reading.typed;
  const std::string whole = fmt::format("{} {}", digits, reading.unit);
  return reading.state == readings::State::below_detection ? say("figure.below", {{"limit", whole}}) : whole;
}

std::string with_unit(const Figure& figure) {
  if (!figure.value && !figure.hi) return figure.written;
  if (!figure.value)
    return Speech(figure.language, DecimalMark::point)("figure.below",
                                                       {{"limit", fmt::format("{} {}", figure.written.substr(2), figure.unit)}});
  return fmt::format("{} {}", figure.written, figure.unit);
}

std::string both_units(const MeasuredGrade& grade, const Speech& say) {
  const Figure metric = grade_figure(grade, unit::gram_per_tonne, say);
  if (!metric.value && !metric.hi) return metric.written;
  Figure ounces = grade_figure(grade, unit::ounce_per_short_ton, say);
  ounces.unit = say("figure.ounces_of_short_ton");
  return say("figure.both", {{"metric", with_unit(metric)}, {"ounces", with_unit(ounces)}});
}

}  // namespace prillbook::summary
