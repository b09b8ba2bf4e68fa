// SPDX-License-Identifier: GPL-3.0-or-later
// What drying drove off is not the moisture that stands.
#include <fmt/format.h>

#include <cmath>

#include "core/findings/finding.h"
#include "core/findings/wording.h"

namespace prillbook::findings {

std::optional<Finding> moisture_differs(const Scene& scene) {
  const results::SampleRecord& record = scene.record;
  if (!record.sample.moisture) return std::nullopt;
  for (const milling::Step& step : record.steps) {
    const auto driven_off = step.portion ? std::nullopt : milling::moisture_of(step);
    if (!driven_off) continue;
    const double pct = driven_off->in(unit::percent);
    if (std::abs(pct - record.sample.moisture->value) <= record.settings.moisture_apart_pct) continue;
    Finding finding;
    finding.rule = "moisture_differs";
    finding.severity = Severity::caution;
    finding.sample = record.sample.id;
    finding.seen = fmt::format("The {} drove off {} %; {} stands as the moisture.", step_in_words(step), two_digits(pct),
                               record.sample.moisture->typed);
    finding.why = "Moisture taken off twice, or on the wrong basis, moves every grade of the sample by as much.";
    finding.to_do = "Look which of the two was measured on what, and correct the other.";
    finding.source = "common practice";
    finding.evidence = {{"driven off, %", two_digits(pct), history::Entity::step, step.id.value},
                        {"moisture", record.sample.moisture->typed, history::Entity::sample, record.sample.id.value}};
    return finding;
  }
  return std::nullopt;
}

}  // namespace prillbook::findings
