// SPDX-License-Identifier: GPL-3.0-or-later
// The bag came torn or leaking.
#include <fmt/format.h>

#include "core/findings/finding.h"

namespace prillbook::findings {

std::optional<Finding> leaking_bag(const Scene& scene) {
  const custody::Sample& sample = scene.record.sample;
  if (sample.condition != "torn" && sample.condition != "leaking") return std::nullopt;
  Finding finding;
  finding.rule = "leaking_bag";
  finding.severity = Severity::caution;
  finding.sample = sample.id;
  finding.seen = fmt::format("The bag came {}.", *sample.condition);
  finding.why = "Dust that left the bag is not in the assay, and may be in the bags beside it.";
  finding.to_do =
      "Log what lies in the box as sweepings of this sample. Look at the bags that came with it, and tell the client.";
  finding.source = "ISO/IEC 17025:2017 7.4.3 asks for departures from specified conditions to be recorded (from memory)";
  finding.evidence = {{"condition", *sample.condition, history::Entity::sample, sample.id.value}};
  return finding;
}

}  // namespace prillbook::findings
