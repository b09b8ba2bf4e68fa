// SPDX-License-Identifier: GPL-3.0-or-later
// Something happened to the sample before it came in.
#include <fmt/format.h>

#include "core/findings/custody_words.h"

namespace prillbook::findings {

std::optional<Finding> before_arrival(const Scene& scene) {
  const results::SampleRecord& record = scene.record;
  const Instant arrived = record.consignment.arrived;
  Noted noted;
  const auto labelled = [&](PortionId id, const char* done) { return fmt::format("{} was {}", record.portion_label(id), done); };
  const auto check = [&](const std::optional<Instant>& at, const auto& words, history::Entity entity, RecordId id) {
    if (!at || at->utc_ms >= arrived.utc_ms) return;
    const std::string what = words();
    noted.add(fmt::format("{} on {}, before it came in on {}.", what, moment_in_words(*at), moment_in_words(arrived)),
              {what, moment_in_words(*at), entity, id});
  };
  for (const custody::Link& link : record.custody.chain.links)
    if (link.id && !link.of_consignment)
      check(
          link.at, [&] { return fmt::format("Handed to {}", link.to); }, history::Entity::hand_over, link.id.value);
  for (const portions::Portion& portion : record.portions)
    check(
        portion.cut_at, [&] { return labelled(portion.id, "cut"); }, history::Entity::portion, portion.id.value);
  const auto weighings = [&](const weighing::Bead& bead) {
    for (const weighing::Weighing& one : bead.weighings)
      check(
          one.weighed_at, [] { return std::string("A bead was weighed"); }, history::Entity::weighing, one.id.value);
  };
  for (const results::PanEntry& entry : record.pan_tests) {
    check(
        entry.test.panned_at, [&] { return labelled(entry.test.portion, "panned"); }, history::Entity::pan_test,
        entry.test.id.value);
    weighings(entry.bead);
  }
  for (const results::FireEntry& entry : record.charges) {
    check(
        entry.charge.fired_at, [&] { return labelled(entry.charge.portion, "fused"); }, history::Entity::charge,
        entry.charge.id.value);
    weighings(entry.bead);
  }
  if (noted.empty()) return std::nullopt;
  return noted.finding(
      "before_arrival", Severity::caution, scene, "One of the two times is wrong, or the entry belongs to another sample.",
      "Correct the time that is wrong; where both are right, ask whose sample was on the bench.", "common practice");
}

}  // namespace prillbook::findings
