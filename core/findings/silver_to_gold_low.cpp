// SPDX-License-Identifier: GPL-3.0-or-later
// A bead that is to be parted holds too little silver for the acid.
#include <fmt/format.h>

#include "core/findings/furnace_evidence.h"

namespace prillbook::findings {

std::optional<Finding> silver_to_gold_low(const Scene& scene) {
  return first_of_charges(scene, [&](const results::FireEntry& entry) -> std::optional<Finding> {
    const weighing::Bead& bead = entry.bead;
    if (!bead.inquart || !bead.fineness || bead.mean(weighing::of_gold)) return std::nullopt;
    const auto mass = bead.mean(weighing::of_bead);
    if (!mass) return std::nullopt;
    const Mass gold = *mass * (bead.fineness->fineness().in(unit::permil) / 1000);
    const auto ratio = parting_ratio(*mass, gold, bead.inquart->mass());
    if (!ratio || *ratio >= least_parting_ratio) return std::nullopt;
    const DecimalMark mark = scene.record.settings.decimal_mark;
    Finding finding = about_furnace(scene, "silver_to_gold_low", Severity::stop);
    finding.seen = fmt::format("The bead of {} would hold {} parts of silver to one of gold.", labelled(scene, entry),
                               fixed(*ratio, 1, mark));
    finding.why = "Below two parts the acid leaves silver in the gold: it would be read as gold.";
    finding.to_do = "Add inquart silver until there are two and a half to three parts, melt and flatten it, then part.";
    finding.source = "Beringer p. 146-147; Villavecchia: about three to one";
    finding.evidence = {of_charge(entry, "silver to gold", fixed(*ratio, 2, mark)),
                        of_charge(entry, "inquart silver", milligrams_in_words(bead.inquart->mass(), mark))};
    return finding;
  });
}

}  // namespace prillbook::findings
