// SPDX-License-Identifier: GPL-3.0-or-later
// A reading that an issued summary rests on is not what it was.
#include <fmt/format.h>

#include "core/findings/finding.h"

namespace prillbook::findings {

std::optional<Finding> issued_changed(const Scene& scene) {
  if (!scene.issued || scene.issued->empty()) return std::nullopt;
  Finding finding;
  finding.rule = "issued_changed";
  finding.severity = Severity::caution;
  finding.sample = scene.record.sample.id;
  const issue::ChangedReading& first = scene.issued->front();
  finding.seen = fmt::format("Summary {} rests on {}: it said {} and is {} now", first.number, first.what, first.before,
                             first.now.empty() ? "struck out" : first.now);
  finding.seen += scene.issued->size() > 1 ? fmt::format(", with {} more.", scene.issued->size() - 1) : ".";
  finding.why = "The client holds figures that the notebook no longer gives.";
  finding.to_do =
      fmt::format("Amend {}, so that the client learns what changed and why; or put the reading right.", first.number);
  finding.source =
      "ISO/IEC 17025:2017, 7.8.8: a report that is amended says what changed and, where it matters, why (from memory)";
  for (const issue::ChangedReading& one : *scene.issued)
    finding.evidence.push_back({fmt::format("{}: {}", one.number, one.what),
                                fmt::format("{} → {}", one.before, one.now.empty() ? "struck out" : one.now),
                                history::Entity::summary, one.summary.value});
  return finding;
}

}  // namespace prillbook::findings
