// SPDX-License-Identifier: GPL-3.0-or-later
// A reference material of its furnace load lies too far from its value, and nobody has decided what that means.
#include <algorithm>

#include "core/findings/quality_evidence.h"

namespace prillbook::findings {

std::optional<Finding> reference_outside(const Scene& scene) {
  auto finding = undecided_controls(scene, "reference_outside", [](const results::ControlResult& control) {
    return control.role == controls::Role::reference &&
           std::any_of(control.alarms.begin(), control.alarms.end(), speaks_of_one_value);
  });
  if (!finding) return finding;
  finding->why =
      "Rock of known grade came out wrong: what made it wrong (flux, losses, weighing, parting) may have been at work in every "
      "charge of the load.";
  finding->to_do = "Go over its weighings, its button and its slag, then accept, hold or repeat the load at Quality.";
  finding->source = "Westgard’s rules (PMC3909142, table 1) or Nelson’s (J. Quality Technology 16, 1984), as the lab has set";
  return finding;
}

}  // namespace prillbook::findings
