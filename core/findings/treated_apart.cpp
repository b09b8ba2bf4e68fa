// SPDX-License-Identifier: GPL-3.0-or-later
// The sample was marked to be refused or treated apart. A refused one is a finding once somebody has worked on it.
#include <fmt/format.h>

#include "core/findings/finding.h"

namespace prillbook::findings {

std::optional<Finding> treated_apart(const Scene& scene) {
  const custody::Sample& sample = scene.record.sample;
  const bool refuse = sample.treatment == "refuse";
  if (!refuse && sample.treatment != "treat_apart") return std::nullopt;
  const std::size_t cut = scene.record.portions.size();
  if (refuse && cut == 0) return std::nullopt;
  const std::string reason = sample.treatment_reason ? fmt::format(" ({})", *sample.treatment_reason) : "";
  Finding finding;
  finding.rule = "treated_apart";
  finding.severity = Severity::caution;
  finding.sample = sample.id;
  finding.seen = refuse ? fmt::format("The sample was to be refused{}, yet {} portion{} cut from it.", reason, cut,
                                      cut == 1 ? " was" : "s were")
                        : fmt::format("The sample is to be treated apart{}.", reason);
  finding.why = refuse
                    ? "What is refused for its dust or fumes stays dangerous in every portion of it."
                    : "What asks for its own handling can hurt whoever takes it for ordinary rock, or spoil what comes after it.";
  finding.to_do =
      refuse ? "Stop, put the portions with the sample and say who let it pass; or take the refusal back with the reason."
             : "Answer with how it is handled: which room, which mask, which tools are its own and how they are cleaned.";
  finding.source = "common practice";
  finding.evidence = {{"treatment", *sample.treatment, history::Entity::sample, sample.id.value}};
  if (sample.treatment_reason)
    finding.evidence.push_back({"reason", *sample.treatment_reason, history::Entity::sample, sample.id.value});
  if (refuse) finding.evidence.push_back({"portions", std::to_string(cut), history::Entity::sample, sample.id.value});
  return finding;
}

}  // namespace prillbook::findings
