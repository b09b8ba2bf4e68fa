// SPDX-License-Identifier: GPL-3.0-or-later
// Less arrived than was declared, by more than the lab's limit.
#include <fmt/format.h>

#include "core/assay/rounding.h"
#include "core/findings/finding.h"
#include "core/findings/wording.h"

namespace prillbook::findings {

std::optional<Finding> short_on_arrival(const Scene& scene) {
  const custody::Sample& sample = scene.record.sample;
  if (!sample.mass_declared || !sample.mass_received || sample.mass_declared->value <= 0) return std::nullopt;
  const double missing = sample.mass_declared->value - sample.mass_received->value;
  const double missing_pct = missing / sample.mass_declared->value * 100;
  if (missing_pct <= scene.record.settings.short_mass_limit_pct) return std::nullopt;
  const DecimalMark mark = scene.record.settings.decimal_mark;
  Finding finding;
  finding.rule = "short_on_arrival";
  finding.severity = Severity::caution;
  finding.sample = sample.id;
  finding.seen = fmt::format("{} were declared and {} received: {} % is missing.", typed_with_unit(*sample.mass_declared),
                             typed_with_unit(*sample.mass_received), rounded(missing_pct, 1, mark));
  finding.why = "What leaks from a bag is its finest and often its richest dust; the rest may read poorer than the rock was.";
  finding.to_do = "Look for sweepings in the box and log them as a sample of their own. Ask the client how the mass was got.";
  finding.source = "common practice";
  finding.evidence = {{"mass declared", typed_with_unit(*sample.mass_declared), history::Entity::sample, sample.id.value},
                      {"mass received", typed_with_unit(*sample.mass_received), history::Entity::sample, sample.id.value}};
  return finding;
}

}  // namespace prillbook::findings
