// SPDX-License-Identifier: GPL-3.0-or-later
// A reading above the capacity of its balance.
#include <fmt/format.h>

#include <cmath>

#include "core/findings/weighing_evidence.h"
#include "core/units/units.h"
#include "core/weighing/plausibility.h"

namespace prillbook::findings {
namespace {

bool over_range_odd(const Scene&, const SeenWeighing& seen) {
  if (!seen.balance || !seen.balance->capacity) return false;
  return seen.weighing.mass.value > seen.balance->capacity->value * (1 + 1e-9);
}

}  // namespace

std::optional<Finding> over_range(const Scene& scene) {
  auto odd = odd_weighings(scene, "over_range", Severity::caution, over_range_odd);
  if (!odd) return std::nullopt;
  Finding& finding = odd->finding;
  finding.seen = fmt::format("Above the capacity of {}, {}: {}.", odd->weighings.front().balance->name,
                             odd->weighings.front().balance->capacity->typed, odd->labels(scene));
  finding.why = "Beyond its capacity a balance shows nothing that can be trusted.";
  finding.to_do = "Name the balance that was used, or weigh again on one that carries it.";
  finding.source = "common practice, no source";
  return finding;
}

}  // namespace prillbook::findings
