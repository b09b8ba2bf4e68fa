// SPDX-License-Identifier: GPL-3.0-or-later
// What went into a step is not what the notebook says was there.
#include <fmt/format.h>

#include <cmath>

#include "core/findings/finding.h"
#include "core/findings/mass_before.h"
#include "core/findings/wording.h"

namespace prillbook::findings {
std::optional<Finding> open_tree(const Scene& scene) {
  const results::SampleRecord& record = scene.record;
  for (const milling::Step& step : record.steps) {
    if (!step.mass_in || step.kind == "composite") continue;
    const auto expected = mass_before(record, step);
    if (!expected || !(expected->mass > Mass{})) continue;
    const double over_g = (step.mass_in->mass() - expected->mass).in(unit::gram);
    const double limit = milling::loss_limit_pct("crush", record.settings);
    const double u_g = expected->u_against(*step.mass_in).in(unit::gram);
    // Less than all may go into a step; a split weighed whole is of all that was there.
    const double off_g = step.closed ? std::abs(over_g) : over_g;
    if (off_g <= 2 * u_g || 100 * off_g / expected->mass.in(unit::gram) <= limit) continue;
    Finding finding;
    finding.rule = "open_tree";
    finding.severity = Severity::caution;
    finding.sample = record.sample.id;
    finding.seen = fmt::format("{} went into the {}; by what was weighed before, {} should have been there.",
                               mass_in_words(step.mass_in->mass()), step_in_words(step), mass_in_words(expected->mass));
    finding.why = "The masses of this sample do not close: a portion is missing in the notebook, or rock went astray.";
    finding.to_do = "Look for a portion that was not written down, a bag left standing, or a slip in one of the masses.";
    finding.source = "common practice";
    finding.evidence = {
        {"mass in", typed_with_unit(*step.mass_in), history::Entity::step, step.id.value},
        {"mass that should be there", mass_in_words(expected->mass), history::Entity::sample, record.sample.id.value}};
    return finding;
  }
  return std::nullopt;
}

}  // namespace prillbook::findings
