// SPDX-License-Identifier: GPL-3.0-or-later
// Much more came than the client named.
#include <fmt/format.h>

#include "core/assay/rounding.h"
#include "core/findings/finding.h"

namespace prillbook::findings {

std::optional<Finding> heavier_than_declared(const Scene& scene) {
  const custody::Sample& sample = scene.record.sample;
  if (!sample.mass_declared || !sample.mass_received || sample.mass_declared->value <= 0) return std::nullopt;
  const double more_pct = 100 * (sample.mass_received->value / sample.mass_declared->value - 1);
  if (more_pct <= scene.record.settings.heavier_limit_pct) return std::nullopt;
  Finding finding;
  finding.rule = "heavier_than_declared";
  finding.severity = Severity::caution;
  finding.sample = sample.id;
  finding.seen = fmt::format("{} were declared and {} received: {} % more.", sample.mass_declared->typed,
                             sample.mass_received->typed, rounded(more_pct, 0, scene.record.settings.decimal_mark));
  finding.why = "A slip of the decimal point, a bag that was weighed with its tare or wet, or another client's bag.";
  finding.to_do = "Weigh the bag again and look at its mark.";
  finding.source = "common practice, no source";
  finding.evidence = {{"mass declared", sample.mass_declared->typed, history::Entity::sample, sample.id.value},
                      {"mass received", sample.mass_received->typed, history::Entity::sample, sample.id.value}};
  return finding;
}

}  // namespace prillbook::findings
