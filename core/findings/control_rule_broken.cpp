// SPDX-License-Identifier: GPL-3.0-or-later
// The last results on a reference material, together, break a rule of its control chart.
#include <algorithm>

#include "core/findings/quality_evidence.h"

namespace prillbook::findings {

std::optional<Finding> control_rule_broken(const Scene& scene) {
  auto finding = undecided_controls(scene, "control_rule_broken", [](const results::ControlResult& control) {
    return control.role == controls::Role::reference &&
           std::none_of(control.alarms.begin(), control.alarms.end(), speaks_of_one_value);
  });
  if (!finding) return finding;
  finding->why =
      "No single result is far out, but several running lie to one side or far apart: something has shifted or grown loose.";
  finding->to_do =
      "Look at the chart at Quality for the day on which it began, and for what was new then: flux lot, cupels, balance, hands.";
  finding->source = "Westgard’s rules (PMC3909142, table 1) or Nelson’s (J. Quality Technology 16, 1984), as the lab has set";
  return finding;
}

}  // namespace prillbook::findings
