// SPDX-License-Identifier: GPL-3.0-or-later
// A bead that was put on, or weighed from, another place than the trays say it had.
#include <fmt/format.h>

#include <algorithm>

#include "core/findings/weighing_evidence.h"
#include "core/trays/shifts.h"

namespace prillbook::findings {
namespace {

constexpr std::size_t most_sentences = 3;

bool of_sample(const Scene& scene, BeadId bead) {
  const auto& places = scene.record.bead_places;
  return std::any_of(places.begin(), places.end(), [bead](const results::BeadPlace& one) { return one.bead == bead; });
}

// What came onto a tray in another order than it stood on the tray before.
void look_at(const Scene& scene, const results::TrayWalk& walk, Finding& finding, std::vector<std::string>& seen) {
  std::vector<trays::Carried> carried;
  for (const results::TrayWalk::Step& step : walk.steps) carried.push_back({step.from, step.to});
  for (const std::size_t i : trays::out_of_order(carried)) {
    const results::TrayWalk::Step& step = walk.steps[i];
    if (!of_sample(scene, step.bead)) continue;
    seen.push_back(fmt::format("{} stood on position {} of {} and was put on position {} of {}, out of order with the rest",
                               step.label, step.from, walk.from_name, step.to, walk.to_name));
    finding.evidence.push_back(
        {step.label, fmt::format("{} to {}", step.from, step.to), history::Entity::tray_place, step.place.value});
  }
}

const results::BeadPlace* last_place(const Scene& scene, BeadId bead, TrayId tray) {
  const results::BeadPlace* last = nullptr;
  for (const results::BeadPlace& one : scene.record.bead_places)
    if (one.bead == bead && (!tray || one.tray == tray)) last = &one;
  return last;
}

// What was weighed from a place that the trays do not give it.
void look_at(const Scene& scene, const SeenWeighing& weighed, Finding& finding, std::vector<std::string>& seen) {
  if (!weighed.weighing.tray) return;
  const std::int64_t position = weighed.weighing.position;
  const results::BeadPlace* there = last_place(scene, weighed.bead.id, weighed.weighing.tray);
  if (there && there->place.position == position) return;
  const results::BeadPlace* last = there ? there : last_place(scene, weighed.bead.id, {});
  const bool moved = there && std::count(there->place.earlier.begin(), there->place.earlier.end(), position) > 0;
  if (moved)
    seen.push_back(fmt::format("{} ({}) was weighed from position {} of {}; it has been recorded on position {} since",
                               weighed.label(scene), weighed.weighing.mass.typed, position, there->tray_name, there->place.position));
  else if (last)
    seen.push_back(fmt::format("{} ({}) was weighed from position {}; its last recorded place is position {} of {}",
                               weighed.label(scene), weighed.weighing.mass.typed, position, last->place.position, last->tray_name));
  else
    seen.push_back(fmt::format("{} ({}) was weighed from position {} of a tray that it is not recorded on", weighed.label(scene),
                               weighed.weighing.mass.typed, position));
  finding.evidence.push_back(
      {weighed.label(scene), fmt::format("weighed from position {}", position), history::Entity::weighing, weighed.weighing.id.value});
}

}  // namespace

std::optional<Finding> bead_moved(const Scene& scene) {
  Finding finding;
  finding.rule = "bead_moved";
  finding.severity = Severity::caution;
  finding.sample = scene.record.sample.id;
  std::vector<std::string> seen;
  for (const results::TrayWalk& walk : scene.record.tray_walks) look_at(scene, walk, finding, seen);
  for (const SeenWeighing& weighed : weighings_of(scene)) look_at(scene, weighed, finding, seen);
  if (seen.empty()) return std::nullopt;
  for (std::size_t i = 0; i < std::min(seen.size(), most_sentences); ++i)
    finding.seen += fmt::format("{}{}", i ? ". " : "", seen[i]);
  if (seen.size() > most_sentences) finding.seen += fmt::format(". And {} more", seen.size() - most_sentences);
  finding.seen += '.';
  finding.why = "Two beads that change places give each sample the other's gold.";
  finding.to_do =
      "Compare the beads with what each sample was expected to hold. Record the move with its reason, or weigh the beads again.";
  finding.source = "common practice, no source";
  return finding;
}

}  // namespace prillbook::findings
