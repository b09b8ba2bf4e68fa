// SPDX-License-Identifier: GPL-3.0-or-later
// Remainder and tail weigh much less, or more, than the portion that was panned.
#include <fmt/format.h>

#include <cmath>

#include "core/findings/finding.h"
#include "core/findings/wording.h"

namespace prillbook::findings {

std::optional<Finding> pan_mass_open(const Scene& scene) {
  for (const results::PanAccount& account : scene.result.pan_accounts) {
    if (!account.mass || !account.not_accounted || !(*account.mass > Mass())) continue;
    const double open_pct = 100 * (*account.not_accounted / *account.mass);
    if (std::abs(open_pct) <= scene.record.settings.pan_loss_limit_pct) continue;
    Finding finding;
    finding.rule = "pan_mass_open";
    finding.severity = Severity::caution;
    finding.sample = scene.record.sample.id;
    const std::string open = mass_in_words(open_pct < 0 ? -*account.not_accounted : *account.not_accounted);
    finding.seen = fmt::format("Of the {} panned as {}, {} {} in remainder and tail.", mass_in_words(*account.mass),
                               account.label, open, open_pct < 0 ? "too much was weighed" : "was not found again");
    finding.why = "Slime that was poured off carries fine gold with it; or one of the masses is a slip.";
    finding.to_do = "Weigh remainder and tail again, dry. Let the slime settle before the water is poured off.";
    finding.source =
        fmt::format("common practice, no source: {} % of the portion", two_digits(scene.record.settings.pan_loss_limit_pct));
    finding.evidence = {{"portion", mass_in_words(*account.mass), history::Entity::portion, account.portion.value},
                        {"not found again", (open_pct < 0 ? "-" : "") + open, history::Entity::pan_test, account.test.value}};
    return finding;
  }
  return std::nullopt;
}

}  // namespace prillbook::findings
