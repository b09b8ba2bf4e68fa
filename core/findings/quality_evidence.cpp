// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/findings/quality_evidence.h"

#include <fmt/format.h>

namespace prillbook::findings {

std::string control_in_words(const results::ControlResult& control) {
  return fmt::format("{}, {} {}", control.name, controls::role_in_words(control.role), control.label);
}

bool speaks_of_one_value(const results::ChartSignal& signal) { return signal.rule == "1-3s" || signal.rule == "Nelson 1"; }

std::optional<Finding> undecided_controls(const Scene& scene, const char* rule,
                                          const std::function<bool(const results::ControlResult&)>& wanted) {
  if (!scene.quality) return std::nullopt;
  Finding finding;
  finding.rule = rule;
  finding.severity = Severity::caution;
  finding.sample = scene.record.sample.id;
  for (const results::RunControls& run : scene.quality->runs) {
    if (run.standing != results::RunStanding::outside) continue;
    for (const results::ControlResult& control : run.controls) {
      if (control.verdict != results::ControlVerdict::outside || !wanted(control)) continue;
      std::string rules;
      for (const results::ChartSignal& signal : control.alarms) rules += fmt::format("; {}: {}", signal.rule, signal.words);
      finding.seen +=
          fmt::format("{}In {}: {} gave {}{}{}{}.", finding.seen.empty() ? "" : " ", run.name, control_in_words(control),
                      control.found, control.allowed.empty() ? "" : "; allowed: ", control.allowed, rules);
      finding.evidence.push_back({control.label, control.found, history::Entity::charge, control.charge.value});
    }
  }
  if (finding.evidence.empty()) return std::nullopt;
  return finding;
}

}  // namespace prillbook::findings
