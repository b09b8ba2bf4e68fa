// SPDX-License-Identifier: GPL-3.0-or-later
// A blank of its furnace load held more gold than is let pass, and nobody has decided what that means.
#include "core/findings/quality_evidence.h"

namespace prillbook::findings {

std::optional<Finding> blank_outside(const Scene& scene) {
  auto finding = undecided_controls(scene, "blank_outside", [](const results::ControlResult& control) {
    return control.role == controls::Role::blank_rock || control.role == controls::Role::blank_flux;
  });
  if (!finding) return finding;
  finding->why =
      "Rock or flux without gold took gold from somewhere: crusher, pot, litharge or the balance pan. What it took, the charges "
      "beside it may have taken too.";
  finding->to_do =
      "Look for what went before it through the machine and the pot, make another blank, and accept, hold or repeat the load at "
      "Quality.";
  finding->source = "common practice: the limit is the lab’s own (quality.blank_limit_g_t, quality.flux_blank_limit_mg)";
  return finding;
}

}  // namespace prillbook::findings
