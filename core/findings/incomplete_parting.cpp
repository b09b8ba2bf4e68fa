// SPDX-License-Identifier: GPL-3.0-or-later
// A bead lost so little in the acid that silver must be left in the gold. Where no silver that was added is written
// down, neither in the crucible nor to the bead, the ratio is not known and nothing is judged: ore alone always loses little.
#include <fmt/format.h>

#include "core/findings/furnace_evidence.h"

namespace prillbook::findings {

std::optional<Finding> incomplete_parting(const Scene& scene) {
  return first_of_charges(scene, [&](const results::FireEntry& entry) -> std::optional<Finding> {
    const weighing::Bead& bead = entry.bead;
    const auto parted = bead.parted();
    if (!parted || bead.melted_into) return std::nullopt;
    if (!bead.inquart && !entry.charge.collector) return std::nullopt;
    const auto ratio = parting_ratio(parted->bead, parted->gold, bead.inquart ? bead.inquart->mass() : Mass());
    if (!ratio || *ratio >= least_parting_ratio) return std::nullopt;
    const DecimalMark mark = scene.record.settings.decimal_mark;
    Finding finding = about_furnace(scene, "incomplete_parting", Severity::caution);
    finding.seen =
        fmt::format("The bead of {} lost {} parts for one part of gold left.", labelled(scene, entry), fixed(*ratio, 1, mark));
    finding.why = "A bead that loses less than two thirds of its weight held too little silver: some of it stays in the gold.";
    finding.to_do = "Add silver to the gold, melt it and part again.";
    finding.source = "Beringer p. 147";
    finding.evidence = {of_charge(entry, "bead", milligrams_in_words(parted->bead, mark)),
                        of_charge(entry, "gold", milligrams_in_words(parted->gold, mark)),
                        of_charge(entry, "silver to gold", fixed(*ratio, 2, mark))};
    return finding;
  });
}

}  // namespace prillbook::findings
