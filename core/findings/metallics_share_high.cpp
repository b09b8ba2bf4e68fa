// SPDX-License-Identifier: GPL-3.0-or-later
// Much of the gold lies in the coarse part, and a plain charge speaks for the rock beside it.
#include <fmt/format.h>

#include "core/assay/rounding.h"
#include "core/findings/finding.h"
#include "core/findings/wording.h"

namespace prillbook::findings {
std::optional<Finding> metallics_share_high(const Scene& scene) {
  if (!scene.result.fire.gold.mean) return std::nullopt;
  for (const results::MetallicsOf& metallics : scene.result.metallics) {
    if (!metallics.result || !metallics.result->coarse_share ||
        100 * *metallics.result->coarse_share <= scene.record.settings.coarse_share_pct)
      continue;
    const std::string share = rounded(100 * *metallics.result->coarse_share, 0) + " %";
    Finding finding;
    finding.rule = "metallics_share_high";
    finding.severity = Severity::caution;
    finding.sample = scene.record.sample.id;
    finding.seen =
        fmt::format("Metallics of {} hold {} of the gold in the coarse part ({} g/t); plain charges say {} g/t.", metallics.label,
                    share, grade_in_words(*metallics.gold), grade_in_words(*scene.result.fire.gold.mean));
    finding.why = "With coarse gold a plain charge catches a grain or misses it: its figure is a matter of luck.";
    finding.to_do = "Let the metallics lead, or screen a second, larger portion; tell the client why the charges scatter.";
    finding.source = "common practice, no source";
    finding.evidence = {{"coarse share", share, history::Entity::metallics, metallics.id.value},
                        {"plain charges, g/t", grade_in_words(*scene.result.fire.gold.mean), history::Entity::sample,
                         scene.record.sample.id.value}};
    return finding;
  }
  return std::nullopt;
}

}  // namespace prillbook::findings
