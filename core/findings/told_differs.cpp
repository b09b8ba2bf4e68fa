// SPDX-License-Identifier: GPL-3.0-or-later
// A figure told by telephone is no longer the one that stands.
#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "core/assay/rounding.h"
#include "core/base/number.h"
#include "core/findings/custody_words.h"
#include "core/units/units.h"

namespace prillbook::findings {
namespace {

// What was said, in g/t, and one unit of its last digit; absent where it is no plain figure with a unit that is known.
struct Said {
  double g_t = 0, last_place = 0;
};

std::optional<Said> understood(std::string_view words, DecimalMark preferred) {
  words = trimmed(words);
  for (const std::string_view before : {"about ", "ca. ", "~"})
    if (words.starts_with(before)) words.remove_prefix(before.size());
  const auto number = parse_number(words, preferred);
  if (!number) return std::nullopt;
  double factor = 0;
  if (number->rest.empty() || number->rest == "g/t" || number->rest == "ppm") factor = 1;
  if (number->rest == "oz/st" || number->rest == "oz/short ton")
    factor = Grade(1, unit::ounce_per_short_ton).in(unit::gram_per_tonne);
  if (factor == 0) return std::nullopt;
  const std::size_t point = number->digits.find('.');
  const double places = point == std::string::npos ? 0 : double(number->digits.size() - point - 1);
  return Said{number->value * factor, std::pow(10, -places) * factor};
}

const MeasuredGrade* standing(const results::SampleResult& result, bool silver) {
  const MeanOfCharges& fire = silver ? result.fire.silver : result.fire.gold;
  if (fire.mean) return &*fire.mean;
  if (!result.leading_pan) return nullptr;
  const std::optional<GradeResult>& pan = result.pan[*result.leading_pan].grade;
  if (!pan) return nullptr;
  const std::optional<MeasuredGrade>& metal = silver ? pan->silver : pan->gold;
  return metal ? &*metal : nullptr;
}

}  // namespace

std::optional<Finding> told_differs(const Scene& scene) {
  Noted noted;
  const DecimalMark mark = scene.record.settings.decimal_mark;
  for (const custody::ToldFigure& told : scene.record.custody.told) {
    if (told.what != "gold" && told.what != "silver") continue;
    const auto said = understood(told.said, mark);
    const MeasuredGrade* now = standing(scene.result, told.what == "silver");
    if (!said || !now) continue;
    // Half a unit of the last digit said is rounding, a hundredth more is the dust of decimal figures held in binary.
    if (std::abs(now->g_t() - said->g_t) <= 0.51 * said->last_place) continue;
    const std::string figure = rounded(now->g_t(), now->g_t() < 10 ? 2 : 1, mark);
    noted.add(
        fmt::format("{} was told {} of {} on {}; it stands at {} g/t now.", told.to_whom, told.said, told.what,
                    moment_in_words(told.at), figure),
        {told.what + " told, now", fmt::format("{}, {} g/t", told.said, figure), history::Entity::told_figure, told.id.value});
  }
  if (noted.empty()) return std::nullopt;
  return noted.finding("told_differs", Severity::caution, scene, "Somebody may be acting on the figure they heard.",
                       "Tell them the figure that stands, and write that down as told.", "common practice");
}

}  // namespace prillbook::findings
