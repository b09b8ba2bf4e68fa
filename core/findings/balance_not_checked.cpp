// SPDX-License-Identifier: GPL-3.0-or-later
// Weighed on a balance that the lab checks, but not on that day.
#include <fmt/format.h>

#include <cmath>

#include "core/findings/weighing_evidence.h"
#include "core/units/units.h"
#include "core/weighing/plausibility.h"

namespace prillbook::findings {
namespace {

bool balance_not_checked_odd(const Scene& scene, const SeenWeighing& seen) {
  return verdict_of(scene, seen).state == weighing::CheckState::other_day;
}

}  // namespace

std::optional<Finding> balance_not_checked(const Scene& scene) {
  auto odd = odd_weighings(scene, "balance_not_checked", Severity::note, balance_not_checked_odd);
  if (!odd) return std::nullopt;
  Finding& finding = odd->finding;
  finding.seen = fmt::format("{} had not been checked on the day before this was weighed: {}.",
                             odd->weighings.front().balance->name, odd->labels(scene));
  finding.why = "A balance drifts with warmth, dust and its level; the last check says little after a night.";
  finding.to_do = "Weigh a check weight first thing in the day; one now still tells something.";
  finding.source = "common practice, no source";
  return finding;
}

}  // namespace prillbook::findings
