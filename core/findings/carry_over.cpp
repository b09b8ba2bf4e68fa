// SPDX-License-Identifier: GPL-3.0-or-later
// What a machine is thought to have added is above the lab's limit.
#include <fmt/format.h>

#include "core/assay/rounding.h"
#include "core/findings/finding.h"
#include "core/findings/wording.h"

namespace prillbook::findings {
namespace {

std::string holdup_in_words(const results::MachineState& state) {
  const std::string mass = two_digits(state.holdup.mass.in(unit::gram)) + " g";
  switch (state.origin) {
    case results::HoldUpOrigin::flushes:
      return fmt::format("{} g from {} assayed {}, a lower bound",
                         written(state.holdup.mass.in(unit::gram), state.holdup.half_width().in(unit::gram)), state.flushes,
                         state.flushes == 1 ? "flush" : "flushes");
    case results::HoldUpOrigin::machine: return mass + " as set for this machine";
    case results::HoldUpOrigin::setting: return mass + " as the lab's setting says";
    case results::HoldUpOrigin::none: break;
  }
  return mass;
}

}  // namespace

std::optional<Finding> carry_over(const Scene& scene) {
  if (!scene.machines) return std::nullopt;
  const results::MachineRisk* worst = nullptr;
  for (const results::MachineRisk& risk : *scene.machines)
    if (risk.judged && risk.above && (!worst || risk.pct > worst->pct)) worst = &risk;
  if (!worst) return std::nullopt;
  const results::MachineState::Before& before = worst->state.before.back();
  const bool known = worst->own.basis == results::GradeBasis::assayed;
  const std::string own = two_digits(worst->own.grade.in(unit::gram_per_tonne));
  const std::string added = two_digits(worst->carried.carryover.in(unit::gram_per_tonne));
  Finding finding;
  finding.rule = "carry_over";
  finding.severity = Severity::caution;
  finding.sample = scene.record.sample.id;
  finding.seen = fmt::format("The {} may have added about {} g/t from earlier rock, {} % of this sample's {} g/t ({}).",
                             worst->state.machine.name, added, two_digits(worst->pct), own, known ? "assayed" : "expected");
  finding.why = "The grade may be that of the rock before. The estimate takes full mixing with what stays in the machine.";
  finding.to_do =
      "Crush a fresh portion of what is left, after a flush of barren rock, and compare; or assay the flush that was kept.";
  finding.source = "full mixing with the hold-up: common practice, no source";
  finding.evidence = {
      {"hold-up", holdup_in_words(worst->state), history::Entity::machine, worst->state.machine.id.value},
      {"before it", fmt::format("{}, {} g/t", before.number, two_digits(before.grade.grade.in(unit::gram_per_tonne))),
       history::Entity::step, before.step.id.value},
      {"cleanings between", shortest(double(worst->state.cleanings.size())), history::Entity::step, worst->step.id.value},
      {"added, g/t", added, history::Entity::step, worst->step.id.value}};
  return finding;
}

}  // namespace prillbook::findings
