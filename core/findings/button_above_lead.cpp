// SPDX-License-Identifier: GPL-3.0-or-later
// The button weighs more than all the lead that its litharge holds.
#include <fmt/format.h>

#include "core/findings/furnace_evidence.h"
#include "core/fire/reducing.h"

namespace prillbook::findings {

std::optional<Finding> button_above_lead(const Scene& scene) {
  return first_of_charges(scene, [&](const results::FireEntry& entry) -> std::optional<Finding> {
    const fire::Charge& charge = entry.charge;
    if (!charge.button || !charge.litharge || charge.flux) return std::nullopt;
    const Mass lead = charge.litharge->mass() * lead_per_litharge;
    if (charge.button->mass() <= lead) return std::nullopt;
    const DecimalMark mark = scene.record.settings.decimal_mark;
    Finding finding = about_furnace(scene, "button_above_lead", Severity::caution);
    finding.seen = fmt::format("The button of {} weighs {}; {} of litharge hold {} of lead.", labelled(scene, entry),
                               grams_in_words(charge.button->mass(), mark), grams_in_words(charge.litharge->mass(), mark),
                               grams_in_words(lead, mark));
    finding.why = "Lead comes of the litharge alone: one of the two masses is a slip, or the ore holds lead of its own.";
    finding.to_do = "Check both masses; where the ore is a lead ore, write it down and leave this open no longer.";
    finding.source = "stoichiometry: 0.928 g of lead in 1 g of PbO";
    finding.evidence = {of_charge(entry, "button", grams_in_words(charge.button->mass(), mark)),
                        of_charge(entry, "litharge", grams_in_words(charge.litharge->mass(), mark))};
    return finding;
  });
}

}  // namespace prillbook::findings
