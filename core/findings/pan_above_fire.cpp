// SPDX-License-Identifier: GPL-3.0-or-later
// The pan caught more gold than fire finds: everyday with visible gold, a stop only where sampling is included.
#include <fmt/format.h>

#include "core/findings/finding.h"
#include "core/findings/wording.h"

namespace prillbook::findings {

std::optional<Finding> pan_above_fire(const Scene& scene) {
  const auto& comparison = scene.result.comparison;
  if (!comparison || comparison->gold.verdict != Verdict::pan_exceeds_fire) return std::nullopt;
  const results::TestResult& pan = scene.result.pan[*scene.result.leading_pan];
  const bool sampling_included = comparison->basis == VerdictBasis::weighing_and_sampling;
  Finding finding;
  finding.rule = "pan_above_fire";
  finding.severity = sampling_included ? Severity::stop : Severity::caution;
  finding.sample = scene.record.sample.id;
  finding.seen = fmt::format("The pan caught more gold than fire found: the gap is {} g/t{}", gap_in_words(comparison->gold),
                             sampling_included ? ", sampling included." : "; sampling not judged.");
  finding.why = "A few coarse grains in the larger portion do this; so do swapped beads, a slip in a mass, or a lost charge.";
  finding.to_do =
      "Look for visible gold and note the largest colour. Repeat the fire assay on a larger portion, or as a screen assay. "
      "Check the bead numbers and masses against the bench sheet.";
  finding.source = "common practice";
  finding.evidence = {
      {"pan gold, g/t", grade_in_words(*pan.grade->gold), history::Entity::pan_test, pan.pan_test.value},
      {"fire gold, g/t", grade_in_words(*scene.result.fire.gold.mean), history::Entity::sample, scene.record.sample.id.value},
      {"gap, g/t", gap_in_words(comparison->gold), history::Entity::sample, scene.record.sample.id.value}};
  return finding;
}

}  // namespace prillbook::findings
