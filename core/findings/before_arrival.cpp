// SPDX-License-Identifier: GPL-3.0-or-later
// Something happened to the sample before it came in.
#include <fmt/format.h>

#include "core/findings/custody_words.h"

namespace prillbook::findings {

std::optional<Finding> before_arrival(const Scene& scene) {
  const results::SampleRecord& record = scene.record;
  const Instant arrived = record.consignment.arrived;
  Noted noted;
  const auto check = [&](const std::optional<Instant>& at, const std::string& what, history::Entity entity, RecordId id) {
    if (!at || at->utc_ms >= arrived.utc_ms) return;
    noted.add(fmt::format("{} on {}, before it came in on {}.", what, moment_in_words(*at), moment_in_words(arrived)),
              {what, moment_in_words(*at), entity, id});
  };
  for (const custody::Link& link : record.custody.chain.links)
    if (link.id && !link.of_consignment)
      check(link.at, fmt::format("Handed to {}", link.to), history::Entity::hand_over, link.id.value);
  for (const portions::Portion& portion : record.portions)
    check(portion.cut_at, fmt::format("{} was cut", record.portion_label(portion.id)), history::Entity::portion,
          portion.id.value);
  const auto weighings = [&](const weighing::Bead& bead) {
    for (const weighing::Weighing& one : bead.weighings)
      check(one.weighed_at, "A bead was weighed", history::Entity::weighing, one.id.value);
  };
  for (const results::PanEntry& entry : record.pan_tests) {
    check(entry.test.panned_at, fmt::format("{} was panned", record.portion_label(entry.test.portion)), history::Entity::pan_test,
          entry.test.id.value);
    weighings(entry.bead);
  }
  for (const results::FireEntry& entry : record.charges) {
    check(entry.charge.fired_at, fmt::format("{} was fused", record.portion_label(entry.charge.portion)), history::Entity::charge,
          entry.charge.id.value);
    weighings(entry.bead);
  }
  if (noted.empty()) return std::nullopt;
  return noted.finding(
      "before_arrival", Severity::caution, scene, "One of the two times is wrong, or the entry belongs to another sample.",
      "Correct the time that is wrong; where both are right, ask whose sample was on the bench.", "common practice");
}

}  // namespace prillbook::findings
