// SPDX-License-Identifier: GPL-3.0-or-later
// Gross less tare is another mass than the net mass that was weighed.
#include <fmt/format.h>

#include <cmath>

#include "core/findings/custody_words.h"
#include "core/findings/wording.h"
#include "core/portions/net_mass.h"

namespace prillbook::findings {

std::optional<Finding> net_mass_differs(const Scene& scene) {
  const custody::Sample& sample = scene.record.sample;
  const auto net = portions::net_mass(sample.gross, sample.tare);
  if (!net || !*net || !sample.mass_received) return std::nullopt;
  const double apart = std::abs((*net)->in(unit::gram)-sample.mass_received->value);
  // The gross mass to the figure is no scatter: the tare was not taken off.
  const bool is_gross = sample.gross && sample.gross->value == sample.mass_received->value && apart > 0;
  if (!is_gross && apart <= sample.mass_received->value * scene.record.settings.short_mass_limit_pct / 100) return std::nullopt;
  const portions::MassInWords words = portions::in_words(**net);
  Noted noted;
  noted.add(
      fmt::format("Gross {} less tare {} is {} {}; {} stands as received.", typed_with_unit(*sample.gross),
                  typed_with_unit(*sample.tare), words.number, words.unit, typed_with_unit(*sample.mass_received)),
      {"gross less tare, received", fmt::format("{} {}, {}", words.number, words.unit, typed_with_unit(*sample.mass_received)),
       history::Entity::sample, sample.id.value});
  return noted.finding("net_mass_differs", Severity::caution, scene,
                       "The received mass is what all portions are cut from; one of the three figures is a slip.",
                       "Weigh the bag again, full or empty, and correct the figure that is wrong.", "common practice");
}

}  // namespace prillbook::findings
