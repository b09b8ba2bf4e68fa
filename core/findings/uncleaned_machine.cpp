// SPDX-License-Identifier: GPL-3.0-or-later
// The sample went through a machine that was not cleaned since richer rock.
#include <fmt/format.h>

#include "core/findings/finding.h"
#include "core/findings/wording.h"

namespace prillbook::findings {

std::optional<Finding> uncleaned_machine(const Scene& scene) {
  if (!scene.machines) return std::nullopt;
  for (const results::MachineRisk& risk : *scene.machines) {
    if (!risk.judged || !risk.uncleaned_since_richer) continue;
    const results::MachineState::Before& before = risk.state.before.back();
    Finding finding;
    finding.rule = "uncleaned_machine";
    // With the carry-over above the limit the other finding says what matters.
    finding.severity = risk.above ? Severity::caution : Severity::note;
    finding.sample = scene.record.sample.id;
    finding.seen = fmt::format("The {} was not cleaned after richer rock had gone through it.", risk.state.machine.name);
    finding.why = "What stays in the machine goes into the next sample.";
    finding.to_do = "Clean the machine after richer rock, with a flush of barren rock where the next sample is poor.";
    finding.source = "common practice";
    finding.evidence = {
        {"before it", fmt::format("{}, {} g/t", before.number, two_digits(before.grade.grade.in(unit::gram_per_tonne))),
         history::Entity::step, before.step.id.value},
        {"machine", risk.state.machine.name, history::Entity::step, risk.step.id.value}};
    return finding;
  }
  return std::nullopt;
}

}  // namespace prillbook::findings
