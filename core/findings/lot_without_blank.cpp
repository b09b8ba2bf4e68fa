// SPDX-License-Identifier: GPL-3.0-or-later
// Litharge or lead of a lot whose silver nobody has looked for.
#include <fmt/format.h>

#include "core/findings/furnace_evidence.h"

namespace prillbook::findings {

std::optional<Finding> lot_without_blank(const Scene& scene) {
  return first_of_charges(scene, [&](const results::FireEntry& entry) -> std::optional<Finding> {
    if (entry.charge.blank) return std::nullopt;
    for (const LotId id : {entry.charge.litharge_lot, entry.charge.lead_lot}) {
      const fire::Lot* lot = scene.record.lot(id);
      if (!lot || lot->silver) continue;
      Finding finding = about_furnace(scene, "lot_without_blank", Severity::caution);
      finding.seen =
          fmt::format("{} was made with {} of the lot {}, which has no blank.", labelled(scene, entry), lot->kind, lot->name);
      finding.why = "Litharge and lead bring silver of their own; it stands in the bead as if it were the ore’s.";
      finding.to_do = "Fuse the lot alone with a reducer, cupel the button, and write its silver in mg per 100 g with the lot.";
      finding.source = "Beringer p. 113 and note 12";
      finding.evidence = {of_charge(entry, "charge", labelled(scene, entry)),
                          {"lot", lot->name, history::Entity::lot, lot->id.value}};
      return finding;
    }
    return std::nullopt;
  });
}

}  // namespace prillbook::findings
