// SPDX-License-Identifier: GPL-3.0-or-later
// The silver of litharge and lead is more than usual, or a good part of the bead.
#include <fmt/format.h>

#include "core/findings/furnace_evidence.h"

namespace prillbook::findings {
std::optional<Finding> blank_high(const Scene& scene) {
  return first_of_charges(scene, [&](const results::FireEntry& entry) -> std::optional<Finding> {
    const auto blank = scene.record.blank_of(entry.charge);
    if (!blank) return std::nullopt;
    const DecimalMark mark = scene.record.settings.decimal_mark;
    const fire::Lot* rich = nullptr;
    for (const LotId id : {entry.charge.litharge_lot, entry.charge.lead_lot})
      if (const fire::Lot* lot = scene.record.lot(id); lot && lot->silver && lot->silver->grade() > usual_lot_silver) rich = lot;
    const auto bead = entry.bead.mean(weighing::of_bead);
    const bool large = bead && *bead > Mass() && *blank > *bead * (scene.record.settings.blank_share_pct / 100);
    if (!rich && !large) return std::nullopt;
    Finding finding = about_furnace(scene, "blank_high", large ? Severity::caution : Severity::note);
    finding.seen = large
                       ? fmt::format("Litharge and lead brought {} of silver to {}, whose bead weighs {}.",
                                     milligrams_in_words(*blank, mark), labelled(scene, entry), milligrams_in_words(*bead, mark))
                       : fmt::format("The lot {} holds {} mg of silver in 100 g; 1.5 to 2.5 are usual.", rich->name,
                                     fixed(rich->silver->grade().in(unit::gram_per_tonne) / 10, 2, mark));
    finding.why = "What is taken off is nearly as uncertain as what is left: the silver of the ore is not well known.";
    finding.to_do = "Take litharge and lead that are poorer in silver, or fuse a blank beside the charge.";
    finding.source = "Beringer, note 12: 1.5 to 2.5 mg in 100 g; a fifth of the bead is common practice, no source";
    finding.evidence = {of_charge(entry, "blank", milligrams_in_words(*blank, mark))};
    if (rich) finding.evidence.push_back({"lot", rich->name, history::Entity::lot, rich->id.value});
    return finding;
  });
}

}  // namespace prillbook::findings
