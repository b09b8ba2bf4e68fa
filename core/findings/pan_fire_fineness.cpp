// SPDX-License-Identifier: GPL-3.0-or-later
// The bead of the fire is finer than the bead of the pan.
#include <fmt/format.h>

#include <cmath>

#include "core/findings/furnace_evidence.h"

namespace prillbook::findings {
namespace {

struct KnownFineness {
  double permil, u;
};

constexpr double weighed_u = 10;  // of a parted bead, where its weighings say less: common practice, no source

std::optional<KnownFineness> fineness_of(const weighing::Bead& bead) {
  if (!bead.method || bead.none_seen) return std::nullopt;
  const auto method = find_fineness_method(*bead.method);
  if (method == FinenessMethod::parted) {
    const auto parted = bead.parted();
    if (!parted) return std::nullopt;
    return KnownFineness{1000 * (parted->gold / parted->bead), weighed_u};
  }
  if (!bead.fineness) return std::nullopt;
  FinenessReading reading{bead.fineness->fineness(), method, {}, {}, {}};
  if (bead.fineness_u) reading.u = bead.fineness_u->fineness();
  const auto part = fineness_part(reading, false);
  if (!part || !*part) return std::nullopt;
  return KnownFineness{reading.value.in(unit::permil), (*part)->u};
}

}  // namespace

std::optional<Finding> pan_fire_fineness(const Scene& scene) {
  if (!scene.result.leading_pan) return std::nullopt;
  const BeadId pan_id = scene.result.pan[*scene.result.leading_pan].bead;
  std::optional<KnownFineness> pan;
  for (const results::PanEntry& entry : scene.record.pan_tests)
    if (entry.bead.id == pan_id) pan = fineness_of(entry.bead);
  if (!pan) return std::nullopt;
  return first_of_charges(scene, [&](const results::FireEntry& entry) -> std::optional<Finding> {
    const bool of_rock = !scene.record.pan_product_of(entry.charge.portion) && !scene.record.fraction_of(entry.charge.portion);
    if (!of_rock || entry.charge.excluded || entry.charge.collector) return std::nullopt;
    const auto fire = fineness_of(entry.bead);
    if (!fire || fire->permil - pan->permil <= 2 * std::hypot(fire->u, pan->u)) return std::nullopt;
    const DecimalMark mark = scene.record.settings.decimal_mark;
    Finding finding = about_furnace(scene, "pan_fire_fineness", Severity::caution);
    finding.seen = fmt::format("The fire bead of {} is {} ‰ fine, the pan bead {} ‰.", labelled(scene, entry),
                               fixed(fire->permil, 0, mark), fixed(pan->permil, 0, mark));
    finding.why = "A fire bead paler than the pan bead is usual: it holds the silver of the ore as well. The reverse is not.";
    finding.to_do =
        "Look whether the two beads were exchanged, and whether silver was lost in the cupel or counted in the pan bead.";
    finding.source = "common practice, no source; beyond twice the joint standard uncertainty";
    finding.evidence = {of_charge(entry, "fire bead", fixed(fire->permil, 0, mark) + " ‰"),
                        {"pan bead", fixed(pan->permil, 0, mark) + " ‰", history::Entity::bead, pan_id.value}};
    return finding;
  });
}

}  // namespace prillbook::findings
