// SPDX-License-Identifier: GPL-3.0-or-later
// Free gold was amalgamated, and nothing says how the mercury was driven off and caught.
#include <fmt/format.h>

#include "core/findings/finding.h"

namespace prillbook::findings {

std::optional<Finding> mercury_not_told(const Scene& scene) {
  for (const results::PanEntry& entry : scene.record.pan_tests) {
    if (entry.test.bead_by != "amalgamated" || entry.test.mercury) continue;
    Finding finding;
    finding.rule = "mercury_not_told";
    finding.severity = Severity::caution;
    finding.sample = scene.record.sample.id;
    finding.seen = fmt::format("The free gold of pan test {} was amalgamated; nothing is noted of the mercury.",
                               scene.record.portion_label(entry.test.portion));
    finding.why =
        "Mercury vapour harms without being seen or smelt, and what stays in bead, remainder or tail is not seen either.";
    finding.to_do =
        "Note how it was driven off and caught, by whom, and where the mercury and what touched it went. Heating amalgam, "
        "keeping and disposing of mercury follow the law of the place and are for those licensed to do it; see the cautions.";
    finding.source = "docs/safety.md, Mercury";
    finding.evidence = {{"bead by", "amalgamated", history::Entity::pan_test, entry.test.id.value}};
    return finding;
  }
  return std::nullopt;
}

}  // namespace prillbook::findings
