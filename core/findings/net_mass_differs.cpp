// SPDX-License-Identifier: GPL-3.0-or-later
// Gross less tare is another mass than the net mass that was weighed.
#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "core/findings/custody_words.h"
#include "core/findings/wording.h"
#include "core/milling/steps.h"
#include "core/portions/net_mass.h"
#include "core/units/units.h"

namespace prillbook::findings {
namespace {

constexpr double weighed_apart_pct = 0.2;  // net mass weighed by itself, against gross less tare
constexpr double scale_steps = 5;          // a scale that shows a digit may move it by fives

// What the scale alone may set the three figures apart by: twice the standard uncertainty of their sum.
double explained_g(const custody::Sample& sample) {
  double variance = 0;
  for (const readings::Figure* one : {&sample.gross, &sample.tare, &sample.mass_received}) {
    const double step = scale_steps * milling::smallest_change(**one).in(unit::gram);
    variance += step * step / 12;
  }
  return 2 * std::sqrt(variance);
}

}  // namespace

std::optional<Finding> net_mass_differs(const Scene& scene) {
  const custody::Sample& sample = scene.record.sample;
  const auto net = portions::net_mass(sample.gross, sample.tare);
  if (!net || !*net || !sample.mass_received) return std::nullopt;
  const double apart = std::abs((*net)->in(unit::gram)-sample.mass_received->value);
  // The gross mass to the figure is no scatter: the tare was not taken off.
  const bool is_gross = sample.gross && sample.gross->value == sample.mass_received->value && apart > 0;
  const double received = sample.mass_received->value;
  const bool large = is_gross || apart > received * scene.record.settings.short_mass_limit_pct / 100;
  if (!large && apart <= std::max(received * weighed_apart_pct / 100, explained_g(sample))) return std::nullopt;
  const portions::MassInWords words = portions::in_words(**net);
  Noted noted;
  noted.add(
      fmt::format("Gross {} less tare {} is {} {}; {} stands as received.", typed_with_unit(*sample.gross),
                  typed_with_unit(*sample.tare), words.number, words.unit, typed_with_unit(*sample.mass_received)),
      {"gross less tare, received", fmt::format("{} {}, {}", words.number, words.unit, typed_with_unit(*sample.mass_received)),
       history::Entity::sample, sample.id.value});
  return noted.finding(
      "net_mass_differs", large ? Severity::caution : Severity::note, scene,
      "The received mass is what all portions are cut from. One of the three is a slip, or the rock was damp at one "
      "weighing and drier at the other.",
      "Weigh the bag again, full or empty, and correct the figure that is wrong. If it dried, write its moisture.",
      "common practice, no source; above 0.2 % and what the last digits explain");
}

}  // namespace prillbook::findings
