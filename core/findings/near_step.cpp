// SPDX-License-Identifier: GPL-3.0-or-later
// A reading of fewer than twenty steps of its balance.
#include <fmt/format.h>

#include <cmath>

#include "core/findings/weighing_evidence.h"
#include "core/findings/wording.h"
#include "core/units/units.h"
#include "core/weighing/plausibility.h"

namespace prillbook::findings {
namespace {

bool near_step_odd(const Scene&, const SeenWeighing& seen) {
  const readings::Reading& mass = seen.weighing.mass;
  if (mass.state != readings::State::measured || !mass.step_g || !(*mass.step_g > 0) || !(mass.value > 0)) return false;
  return mass.value < (weighing::steps_for_comfort - 1e-6) * *mass.step_g;
}

}  // namespace

std::optional<Finding> near_step(const Scene& scene) {
  auto odd = odd_weighings(scene, "near_step", Severity::note, near_step_odd);
  if (!odd) return std::nullopt;
  Finding& finding = odd->finding;
  const readings::Reading& first = odd->weighings.front().weighing.mass;
  const double half_pct = 50 * *first.step_g / first.value;
  finding.seen =
      fmt::format("Near the step of the balance: {}. Half a step is {} % of the first.", odd->labels(scene), two_digits(half_pct));
  finding.why = "The step alone leaves the figure open by that much, whatever else is done well.";
  finding.to_do = "Weigh on a finer balance, or assay a larger portion.";
  finding.source = "readability as a rectangle, step/√12; twenty steps are common practice, no source";
  return finding;
}

}  // namespace prillbook::findings
