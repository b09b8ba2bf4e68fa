// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/weighing/plausibility.h"

#include <cmath>
#include <string>

#include "core/units/units.h"
#include "core/weighing/agreement.h"

namespace prillbook::weighing {
namespace {

using readings::Reading;

// The same digits, taken as milligrams.
std::optional<Reading> as_milligrams(const Reading& mass) {
  const auto number = parse_number(mass.typed, mass.mark);
  if (!number) return std::nullopt;
  const std::string_view typed = mass.typed;
  const std::string_view digits = trimmed(typed.substr(0, typed.size() - number->rest.size()));
  auto reading = readings::parse(std::string(digits) + " mg", {Measure::mass, "mg", mass.mark, true});
  if (!reading) return std::nullopt;
  return *std::move(reading);
}

std::optional<Question> against_earlier(const Reading& mass, const Weighed& context) {
  std::vector<Reading> repeats = context.earlier;
  repeats.push_back(mass);
  const auto apart = disagreement(repeats, context.repeat_sd, context.tared);
  if (!apart) return std::nullopt;
  Question question{Doubt::apart_from_earlier, std::nullopt, apart->range.in(unit::milligram)};
  if (const auto exchanged = with_digits_exchanged(mass, context.earlier, apart->allowed)) {
    const bool bare = exchanged->find_first_not_of("0123456789., ") == std::string::npos;
    auto meant = readings::parse(bare ? *exchanged + " " + mass.unit : *exchanged, {Measure::mass, mass.unit, mass.mark, true});
    if (meant) question.instead = *std::move(meant);
  }
  return question;
}

}  // namespace

bool is_off_step(double mass_g, double step_g) {
  const double steps = mass_g / step_g;
  return std::abs(steps - std::round(steps)) > 1e-6 * std::max(1.0, steps);
}

std::vector<Question> doubts(const Reading& mass, const Weighed& context) {
  std::vector<Question> questions;
  if (mass.state != readings::State::measured || mass.value <= 0) return questions;
  if (context.portion && *context.portion > Mass()) {
    const double typed_grade = grade(mass.mass(), *context.portion).in(unit::gram_per_tonne);
    const bool too_rich = typed_grade > context.suspicious.in(unit::gram_per_tonne);
    const auto instead = too_rich && mass.unit == "g" ? as_milligrams(mass) : std::nullopt;
    if (instead)
      questions.push_back({Doubt::perhaps_milligrams, instead, typed_grade});
    else if (mass.mass() > *context.portion)
      questions.push_back({Doubt::heavier_than_portion, std::nullopt, typed_grade});
    else if (too_rich)
      questions.push_back({Doubt::very_rich, std::nullopt, typed_grade});
  }
  if (const auto apart = against_earlier(mass, context)) questions.push_back(*apart);
  if (context.step && *context.step > Mass()) {
    const double steps = mass.mass() / *context.step;
    if (is_off_step(mass.mass().in(unit::gram), context.step->in(unit::gram)))
      questions.push_back({Doubt::off_step, std::nullopt, 0});
    if (steps < steps_for_comfort) questions.push_back({Doubt::near_step, std::nullopt, 50 / steps});
  }
  return questions;
}

}  // namespace prillbook::weighing
