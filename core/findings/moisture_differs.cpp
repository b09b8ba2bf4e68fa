// SPDX-License-Identifier: GPL-3.0-or-later
// What drying drove off is not the moisture that stands, or stands on the dry basis.
#include <fmt/format.h>

#include <cmath>

#include "core/findings/finding.h"
#include "core/findings/wording.h"
#include "core/readings/last_place.h"
#include "core/units/units.h"

namespace prillbook::findings {
namespace {

// Whether the moisture is what was driven off by the dry mass, and is not by the wet mass; both within the digits typed and
// the weighings.
bool is_on_dry_basis(const readings::Reading& moisture, const milling::Step& step) {
  const double wet = step.mass_in->value, dry = step.mass_out->value;
  if (!(dry > 0)) return false;
  const double weighed_pct =
      100 * (milling::smallest_change(*step.mass_in) + milling::smallest_change(*step.mass_out)).in(unit::gram) / dry;
  const double within = (readings::last_place(moisture).value_or(0) + weighed_pct) / 2;
  const double by_wet = 100 * (wet - dry) / wet, by_dry = 100 * (wet - dry) / dry;
  return std::abs(moisture.value - by_dry) <= within && moisture.value - by_wet > within;
}

}  // namespace

std::optional<Finding> moisture_differs(const Scene& scene) {
  const results::SampleRecord& record = scene.record;
  if (!record.sample.moisture) return std::nullopt;
  for (const milling::Step& step : record.steps) {
    const auto driven_off = step.portion ? std::nullopt : milling::moisture_of(step);
    if (!driven_off) continue;
    const double pct = driven_off->in(unit::percent);
    const bool dry_basis = is_on_dry_basis(*record.sample.moisture, step);
    if (!dry_basis && std::abs(pct - record.sample.moisture->value) <= record.settings.moisture_apart_pct) continue;
    Finding finding;
    finding.rule = "moisture_differs";
    finding.severity = Severity::caution;
    finding.sample = record.sample.id;
    finding.seen = fmt::format("The {} drove off {} %; {} stands as the moisture{}.", step_in_words(step), two_digits(pct),
                               record.sample.moisture->typed, dry_basis ? ", which is the loss by the dry mass" : "");
    finding.why = "Moisture taken off twice, or on the wrong basis, moves every grade of the sample by as much.";
    finding.to_do = dry_basis ? "Write the loss divided by the wet mass, which all sums here go by."
                              : "Look which of the two was measured on what, and correct the other.";
    finding.source = "common practice";
    finding.evidence = {{"driven off, %", two_digits(pct), history::Entity::step, step.id.value},
                        {"moisture", record.sample.moisture->typed, history::Entity::sample, record.sample.id.value}};
    return finding;
  }
  return std::nullopt;
}

}  // namespace prillbook::findings
