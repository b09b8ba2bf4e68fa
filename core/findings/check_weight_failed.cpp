// SPDX-License-Identifier: GPL-3.0-or-later
// Weighed on a balance whose last check weighing before it had failed.
#include <fmt/format.h>

#include <cmath>

#include "core/findings/weighing_evidence.h"
#include "core/units/units.h"
#include "core/weighing/plausibility.h"

namespace prillbook::findings {
namespace {

bool check_weight_failed_odd(const Scene& scene, const SeenWeighing& seen) {
  return verdict_of(scene, seen).state == weighing::CheckState::failed;
}

}  // namespace

std::optional<Finding> check_weight_failed(const Scene& scene) {
  auto odd = odd_weighings(scene, "check_weight_failed", Severity::caution, check_weight_failed_odd);
  if (!odd) return std::nullopt;
  Finding& finding = odd->finding;
  const SeenWeighing& first = odd->weighings.front();
  const weighing::CheckWeighing* check = verdict_of(scene, first).last;
  finding.evidence.push_back({"check", check->mass.typed, history::Entity::check_weighing, check->id.value});
  finding.seen = fmt::format("Weighed on {} while its check weight was out: {}. The check read {} for {}, and {} is allowed.",
                             first.balance->name, odd->labels(scene), check->mass.typed, check->nominal.typed, check->allowed.typed);
  finding.why = "A balance that shows a known weight wrongly shows a bead wrongly too.";
  finding.to_do = "Clean and level the balance, check it again, and weigh these once more.";
  finding.source = "common practice, no source; the limit is the lab's own for the weight";
  return finding;
}

}  // namespace prillbook::findings
