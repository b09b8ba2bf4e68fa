// SPDX-License-Identifier: GPL-3.0-or-later
// A crucible was used again after a much richer ore.
#include <fmt/format.h>

#include "core/findings/furnace_evidence.h"
#include "core/findings/wording.h"

namespace prillbook::findings {
std::optional<Finding> pot_after_rich(const Scene& scene) {
  return first_of_charges(scene, [&](const results::FireEntry& entry) -> std::optional<Finding> {
    for (const results::PotUse& use : scene.record.pot_uses) {
      if (use.charge != entry.charge.id || !use.before_metal) continue;
      const double before = use.before_metal->in(unit::gram_per_tonne);
      if (before < scene.record.settings.rich_g_t) continue;
      const auto bead = entry.bead.mean(weighing::of_bead);
      const portions::Portion* portion = scene.record.portion(entry.charge.portion);
      if (bead && portion && portion->mass && portion->mass->mass() > Mass() &&
          grade(*bead, portion->mass->mass()).in(unit::gram_per_tonne)*scene.record.settings.pot_richer_times > before)
        continue;
      Finding finding = about_furnace(scene, "pot_after_rich", Severity::caution);
      finding.seen = fmt::format("The pot {} of {} held {} before, with {} g/t of metal.", use.pot, labelled(scene, entry),
                                 use.before_label, two_digits(before));
      finding.why = "Slag and prills of the rich ore stay on the wall and go into the next bead.";
      finding.to_do = "Fuse a barren charge in the pot and cupel its button, or repeat this charge in a new pot.";
      finding.source = "common practice, no source";
      finding.evidence = {of_charge(entry, "pot", use.pot),
                          {"before", use.before_label, history::Entity::charge, use.before.value}};
      return finding;
    }
    return std::nullopt;
  });
}

}  // namespace prillbook::findings
