// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/findings/weighing_evidence.h"

#include <fmt/format.h>

#include <algorithm>

namespace prillbook::findings {
namespace {

constexpr std::size_t most_named = 3;

void add(const Scene& scene, const weighing::Bead& bead, PortionId portion, std::vector<SeenWeighing>& list) {
  for (const weighing::Weighing& one : bead.weighings) {
    if (one.excluded) continue;
    const auto& balances = scene.record.balances;
    const auto found = std::find_if(balances.begin(), balances.end(), [&](const lab::Balance& b) { return b.id == one.balance; });
    list.push_back({one, bead, portion, found == balances.end() ? nullptr : &*found});
  }
}

}  // namespace

std::vector<SeenWeighing> weighings_of(const Scene& scene) {
  std::vector<SeenWeighing> list;
  for (const auto& entry : scene.record.pan_tests)
    if (!entry.test.spoiled) add(scene, entry.bead, entry.test.portion, list);
  for (const auto& entry : scene.record.charges)
    if (!entry.charge.spoiled) add(scene, entry.bead, entry.charge.portion, list);
  return list;
}

std::string SeenWeighing::label(const Scene& scene) const {
  return fmt::format("{} of {}", weighing.what, scene.record.portion_label(portion));
}

std::string OddWeighings::labels(const Scene& scene) const {
  std::string words;
  for (std::size_t i = 0; i < std::min(weighings.size(), most_named); ++i)
    words += fmt::format("{}{} ({})", i ? ", " : "", weighings[i].label(scene), weighings[i].weighing.mass.typed);
  if (weighings.size() > most_named) words += fmt::format(" and {} more", weighings.size() - most_named);
  return words;
}

std::optional<OddWeighings> odd_weighings(const Scene& scene, const char* rule, Severity severity,
                                          bool (*odd)(const Scene&, const SeenWeighing&)) {
  OddWeighings found;
  for (const SeenWeighing& seen : weighings_of(scene)) {
    if (!odd(scene, seen)) continue;
    found.finding.evidence.push_back(
        {seen.label(scene), seen.weighing.mass.typed, history::Entity::weighing, seen.weighing.id.value});
    found.weighings.push_back(seen);
  }
  if (found.weighings.empty()) return std::nullopt;
  found.finding.rule = rule;
  found.finding.severity = severity;
  found.finding.sample = scene.record.sample.id;
  return found;
}

weighing::CheckVerdict verdict_of(const Scene& scene, const SeenWeighing& seen) {
  if (!seen.balance || !seen.weighing.weighed_at) return {};
  return weighing::verdict_at(scene.record.checks, seen.balance->id, *seen.weighing.weighed_at);
}

}  // namespace prillbook::findings
