// SPDX-License-Identifier: GPL-3.0-or-later
// A fineness below a tenth of gold, got in a way that hardly meets such beads: perhaps per cent was typed.
#include <fmt/format.h>

#include "core/findings/weighing_evidence.h"

namespace prillbook::findings {
namespace {

constexpr double percent_ends_at = 100;  // per mille

}  // namespace

std::optional<Finding> fineness_perhaps_percent(const Scene& scene) {
  const auto look_at = [&](const weighing::Bead& bead, PortionId portion) -> std::optional<Finding> {
    if (!bead.fineness || !bead.method || bead.method == "parted" || bead.method == "colour") return std::nullopt;
    const double permil = bead.fineness->fineness().in(unit::permil);
    if (permil <= 0 || permil > percent_ends_at) return std::nullopt;
    Finding finding;
    finding.rule = "fineness_perhaps_percent";
    finding.severity = Severity::caution;
    finding.sample = scene.record.sample.id;
    finding.seen = fmt::format("The bead of {} stands with a fineness of {} ‰, by {}.", scene.record.portion_label(portion),
                               bead.fineness->typed, *bead.method);
    finding.why = "A bead of less than a tenth of gold is rare; per cent typed as parts per thousand makes one.";
    finding.to_do = fmt::format("Look at the bench sheet: was it {} %?", bead.fineness->typed);
    finding.source = "common practice, no source";
    finding.evidence = {{"fineness", bead.fineness->typed, history::Entity::bead, bead.id.value}};
    return finding;
  };
  for (const results::PanEntry& entry : scene.record.pan_tests)
    if (auto finding = look_at(entry.bead, entry.test.portion)) return finding;
  for (const results::FireEntry& entry : scene.record.charges)
    if (auto finding = look_at(entry.bead, entry.charge.portion)) return finding;
  return std::nullopt;
}

}  // namespace prillbook::findings
