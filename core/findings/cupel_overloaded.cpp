// SPDX-License-Identifier: GPL-3.0-or-later
// More lead than the cupel can drink.
#include <fmt/format.h>

#include "core/findings/furnace_evidence.h"

namespace prillbook::findings {

std::optional<Finding> cupel_overloaded(const Scene& scene) {
  return first_of_charges(scene, [&](const results::FireEntry& entry) -> std::optional<Finding> {
    if (!entry.charge.button || !entry.charge.cupel) return std::nullopt;
    const Mass added = entry.charge.lead_added ? entry.charge.lead_added->mass() : Mass();
    const Mass lead = entry.charge.button->mass() + added, cupel = entry.charge.cupel->mass();
    if (!cupel_too_small(lead, cupel)) return std::nullopt;
    const DecimalMark mark = scene.record.settings.decimal_mark;
    Finding finding = about_furnace(scene, "cupel_overloaded", Severity::caution);
    finding.seen = fmt::format("{} of lead went on a cupel of {} for {}.", grams_in_words(lead, mark),
                               grams_in_words(cupel, mark), labelled(scene, entry));
    finding.why = "A cupel soaks up about its own weight; what it can’t drink runs through or stays and drowns the bead.";
    finding.to_do = "Look at the floor under the cupel for prills; next time scorify the button or take a heavier cupel.";
    finding.source = "Beringer p. 142: a good cupel takes its own weight of lead; magnesia takes less (Rose p. 504)";
    finding.evidence = {of_charge(entry, "lead", grams_in_words(lead, mark)),
                        of_charge(entry, "cupel", grams_in_words(cupel, mark))};
    return finding;
  });
}

}  // namespace prillbook::findings
