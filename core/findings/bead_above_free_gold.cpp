// SPDX-License-Identifier: GPL-3.0-or-later
// The pan bead weighs more than the free gold that it was made of.
#include <fmt/format.h>

#include "core/findings/furnace_evidence.h"
#include "core/milling/steps.h"

namespace prillbook::findings {

std::optional<Finding> bead_above_free_gold(const Scene& scene) {
  for (const results::PanEntry& entry : scene.record.pan_tests) {
    const auto bead = entry.bead.mean(weighing::of_bead);
    if (entry.test.spoiled || !entry.test.free_gold || !bead) continue;
    const Mass raw = entry.test.free_gold->mass();
    if (*bead <= raw + milling::smallest_change(*entry.test.free_gold)) continue;
    const DecimalMark mark = scene.record.settings.decimal_mark;
    Finding finding = about_furnace(scene, "bead_above_free_gold", Severity::caution);
    finding.seen =
        fmt::format("The pan bead of {} weighs {}, the free gold drawn off {}.", scene.record.portion_label(entry.test.portion),
                    milligrams_in_words(*bead, mark), entry.test.free_gold->typed);
    finding.why = "Cupelling or retorting takes sand and base metal away and adds nothing.";
    finding.to_do = "Look whether two beads were exchanged, whether silver was added, and at both weighings.";
    finding.source = "common practice, no source";
    finding.evidence = {{"bead", milligrams_in_words(*bead, mark), history::Entity::bead, entry.bead.id.value},
                        {"free gold", entry.test.free_gold->typed, history::Entity::pan_test, entry.test.id.value}};
    return finding;
  }
  return std::nullopt;
}

}  // namespace prillbook::findings
