// SPDX-License-Identifier: GPL-3.0-or-later
// A sieve of an analysis still under way is past its inspection date today, though it was not on the day of sieving. Speaks of
// now, so it is looked at anew each time.
#include <fmt/format.h>

#include <algorithm>

#include "core/findings/sieve_evidence.h"

namespace prillbook::findings {

std::optional<Finding> sieve_due(const Scene& scene, const Instant& now) {
  return first_of_analyses(
      scene, [&](const sieves::Analysis& analysis, const results::SizeResult& size) -> std::optional<Finding> {
        const bool under_way =
            std::any_of(analysis.cuts.begin(), analysis.cuts.end(), [](const sieves::Cut& cut) { return !cut.retained; });
        if (!under_way) return std::nullopt;
        Finding finding = about_sieves(scene, "sieve_due", Severity::note);
        std::vector<std::string> names;
        for (const sieves::Sieve& sieve : scene.record.sieves) {
          const bool used = std::any_of(analysis.cuts.begin(), analysis.cuts.end(),
                                        [&](const sieves::Cut& cut) { return cut.sieve == sieve.id; });
          if (!used || !sieve.inspect_by || now.utc_ms <= sieve.inspect_by->utc_ms) continue;
          if (analysis.sieved_at && analysis.sieved_at->utc_ms > sieve.inspect_by->utc_ms) continue;  // sieve_overdue says it
          names.push_back(opening_in_words(sieve.opening, scene.record.settings.decimal_mark));
          finding.evidence.push_back(
              {names.back() + " due", local_date(*sieve.inspect_by), history::Entity::sieve, sieve.id.value});
        }
        if (names.empty()) return std::nullopt;
        finding.seen =
            fmt::format("{} is under way, and {} is past the date of inspection by now.", size.label, fmt::join(names, ", "));
        finding.why = "What is still to be sieved would go through cloth that nobody has looked at.";
        finding.to_do = "Look at the sieve before going on; then enter the next date.";
        finding.source = "ISO 3310-1 and ASTM E11 ask for sieves to be examined before use and at intervals (from memory)";
        return finding;
      });
}

}  // namespace prillbook::findings
