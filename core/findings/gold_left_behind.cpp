// SPDX-License-Identifier: GPL-3.0-or-later
// Fire finds more gold than the pan caught, by more than the interval.
#include <fmt/format.h>

#include "core/assay/rounding.h"
#include "core/findings/finding.h"
#include "core/findings/wording.h"

namespace prillbook::findings {

std::optional<Finding> gold_left_behind(const Scene& scene) {
  const auto& comparison = scene.result.comparison;
  if (!comparison || comparison->gold.verdict != Verdict::gold_left_behind) return std::nullopt;
  const results::TestResult& pan = scene.result.pan[*scene.result.leading_pan];
  Finding finding;
  finding.rule = "gold_left_behind";
  finding.severity = Severity::caution;
  finding.sample = scene.record.sample.id;
  finding.seen = fmt::format("Fire found {} g/t of gold more than the pan caught{}", gap_in_words(comparison->gold),
                             comparison->basis == VerdictBasis::weighing ? "; sampling not judged." : ", sampling included.");
  finding.why = "Gold stays behind that gravity did not catch at this grind: locked in the rock, too fine, or lost from the pan.";
  finding.to_do =
      comparison->balance
          ? "Regrind a portion and pan again; a screen assay shows coarse gold. Gold in tellurides and fine gold in "
            "sulphides do not come free by grinding."
          : "Assay the concentrate remainder and the tail: that tells locked gold from lost gold. Then regrind a portion and "
            "pan again. Gold in tellurides and fine gold in sulphides do not come free by grinding.";
  finding.source = "common practice";
  finding.evidence = {
      {"pan gold, g/t", grade_in_words(*pan.grade->gold), history::Entity::pan_test, pan.pan_test.value},
      {"fire gold, g/t", grade_in_words(*scene.result.fire.gold.mean), history::Entity::sample, scene.record.sample.id.value},
      {"gap, g/t", gap_in_words(comparison->gold), history::Entity::sample, scene.record.sample.id.value}};
  return finding;
}

}  // namespace prillbook::findings
