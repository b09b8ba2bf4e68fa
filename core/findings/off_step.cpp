// SPDX-License-Identifier: GPL-3.0-or-later
// A figure that its balance cannot show.
#include <fmt/format.h>

#include <cmath>

#include "core/findings/weighing_evidence.h"
#include "core/units/units.h"
#include "core/weighing/plausibility.h"

namespace prillbook::findings {
namespace {

bool off_step_odd(const Scene&, const SeenWeighing& seen) {
  const readings::Reading& mass = seen.weighing.mass;
  if (mass.state != readings::State::measured || !mass.step_g || !(*mass.step_g > 0) || mass.value < 0) return false;
  return weighing::is_off_step(mass.value, *mass.step_g);
}

}  // namespace

std::optional<Finding> off_step(const Scene& scene) {
  auto odd = odd_weighings(scene, "off_step", Severity::note, off_step_odd);
  if (!odd) return std::nullopt;
  Finding& finding = odd->finding;
  finding.seen = fmt::format("No multiple of the step of the balance: {}.", odd->labels(scene));
  finding.why = "The balance cannot have shown this: a digit was misread, or another balance was meant.";
  finding.to_do = "Weigh again, or name the balance that was used.";
  finding.source = "common practice, no source";
  return finding;
}

}  // namespace prillbook::findings
