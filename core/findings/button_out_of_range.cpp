// SPDX-License-Identifier: GPL-3.0-or-later
// A lead button too small to have gathered the metal, or too large for its cupel.
#include <fmt/format.h>

#include "core/findings/furnace_evidence.h"

namespace prillbook::findings {
std::optional<Finding> button_out_of_range(const Scene& scene) {
  return first_of_charges(scene, [&](const results::FireEntry& entry) -> std::optional<Finding> {
    const auto& button = entry.charge.button;
    const lab::Settings& limits = scene.record.settings;
    const Mass least_button(limits.least_button_g, unit::gram), most_button(limits.most_button_g, unit::gram);
    if (!button || (button->mass() >= least_button && button->mass() <= most_button)) return std::nullopt;
    const bool small = button->mass() < least_button;
    const DecimalMark mark = scene.record.settings.decimal_mark;
    Finding finding = about_furnace(scene, "button_out_of_range", Severity::caution);
    finding.seen =
        fmt::format("The button of {} weighs {}; buttons of {} to {} g are looked for.", labelled(scene, entry),
                    grams_in_words(button->mass(), mark), shortest(limits.least_button_g), shortest(limits.most_button_g));
    finding.why = small ? "A small button leaves silver and gold behind in the slag."
                        : "A large button costs more silver in cupelling, and may be too much for the cupel.";
    finding.to_do = small ? "Fuse the slag again with litharge and a little flour, or make a second charge with more flour."
                          : "Scorify the button smaller, or make a second charge with less flour or some nitre.";
    finding.source = "Beringer p. 90 (18 to 25 g for 20 g of ore) and p. 116 (50 g, the largest printed)";
    finding.evidence = {of_charge(entry, "button", grams_in_words(button->mass(), mark))};
    return finding;
  });
}

}  // namespace prillbook::findings
