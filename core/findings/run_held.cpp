// SPDX-License-Identifier: GPL-3.0-or-later
// A furnace load that its charges went through is held.
#include <fmt/format.h>

#include "core/findings/quality_evidence.h"

namespace prillbook::findings {

std::optional<Finding> run_held(const Scene& scene) {
  Finding finding;
  finding.rule = "run_held";
  finding.severity = Severity::stop;
  finding.sample = scene.record.sample.id;
  for (const results::RunNote& run : scene.record.runs) {
    if (!run.decision || run.decision->decision != "held") continue;
    const std::string reason = run.decision->reason.value_or("");
    finding.seen += fmt::format("{}The load {} is held since {}: {}.", finding.seen.empty() ? "" : " ", run.name,
                                local_date(run.decision->decided_at), reason);
    finding.evidence.push_back({run.name, reason, history::Entity::run_decision, run.decision->id.value});
  }
  if (finding.evidence.empty()) return std::nullopt;
  finding.why = "Nobody vouches for its results yet.";
  finding.to_do = "Find out, then accept the load or repeat it at Quality.";
  finding.source = "the lab’s own decision";
  return finding;
}

}  // namespace prillbook::findings
