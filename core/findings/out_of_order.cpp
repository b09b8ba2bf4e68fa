// SPDX-License-Identifier: GPL-3.0-or-later
// The sample went through a machine before one that the crushing order had put before it, or without the flushes owed.
#include <fmt/format.h>

#include "core/findings/finding.h"
#include "core/findings/wording.h"

namespace prillbook::findings {

std::optional<Finding> out_of_order(const Scene& scene) {
  if (!scene.machines) return std::nullopt;
  for (const results::MachineRisk& risk : *scene.machines) {
    if (!risk.plan) continue;
    const bool early = !risk.should_have_gone_first.empty(), unflushed = risk.flushes_done < risk.flushes_owed;
    if (!early && !unflushed) continue;
    Finding finding;
    finding.rule = "out_of_order";
    // Where the carry-over stayed within the limit nothing came of it.
    finding.severity = risk.judged && risk.above ? Severity::caution : Severity::note;
    finding.sample = scene.record.sample.id;
    finding.seen = early ? fmt::format("It went through the {} before a sample that the crushing order of {} had put first.",
                                       risk.state.machine.name, local_date(risk.plan->made_at))
                         : fmt::format("The crushing order of {} owed {} flush{} before it; {} went through the {}.",
                                       local_date(risk.plan->made_at), risk.flushes_owed, risk.flushes_owed == 1 ? "" : "es",
                                       risk.flushes_done, risk.state.machine.name);
    finding.why = "The order was made so that no sample takes up rock much richer than itself.";
    finding.to_do = "Look at the carry-over of the samples behind it, and flush the machine or make a new order.";
    finding.source = "common practice";
    finding.evidence = {{"machine", risk.state.machine.name, history::Entity::step, risk.step.id.value},
                        {"crushing order", local_date(risk.plan->made_at), history::Entity::crushing_plan, risk.plan->id.value},
                        {"flushes owed and done", fmt::format("{} and {}", risk.flushes_owed, risk.flushes_done),
                         history::Entity::step, risk.step.id.value}};
    if (early) finding.evidence.push_back({"put first", risk.should_have_gone_first, history::Entity::step, risk.step.id.value});
    return finding;
  }
  return std::nullopt;
}

}  // namespace prillbook::findings
