// SPDX-License-Identifier: GPL-3.0-or-later
// A sieve was past its inspection date when it was used.
#include <fmt/format.h>

#include <algorithm>

#include "core/findings/sieve_evidence.h"

namespace prillbook::findings {

std::optional<Finding> sieve_overdue(const Scene& scene) {
  return first_of_analyses(
      scene, [&](const sieves::Analysis& analysis, const results::SizeResult& size) -> std::optional<Finding> {
        if (!analysis.sieved_at) return std::nullopt;
        Finding finding = about_sieves(scene, "sieve_overdue", Severity::note);
        std::vector<std::string> names;
        const DecimalMark mark = scene.record.settings.decimal_mark;
        for (const sieves::Cut& cut : analysis.cuts) {
          const auto held = std::find_if(scene.record.sieves.begin(), scene.record.sieves.end(),
                                         [&](const sieves::Sieve& sieve) { return sieve.id == cut.sieve; });
          if (held == scene.record.sieves.end() || !held->inspect_by) continue;
          if (analysis.sieved_at->utc_ms <= held->inspect_by->utc_ms) continue;
          names.push_back(opening_in_words(held->opening, mark));
          finding.evidence.push_back(
              {names.back() + " due", local_date(*held->inspect_by), history::Entity::sieve, held->id.value});
        }
        if (names.empty()) return std::nullopt;
        finding.seen = fmt::format("{} was sieved with {} past the date of inspection.", size.label, fmt::join(names, ", "));
        finding.why = "Cloth stretches, tears and clogs: a worn opening passes what it should keep.";
        finding.to_do = "Hold the sieve against the light, or sieve a portion whose curve is known; then enter the next date.";
        finding.source = "ISO 3310-1 and ASTM E11 ask for sieves to be examined before use and at intervals (from memory)";
        finding.evidence.push_back(of_analysis(size, "sieved", local_date(*analysis.sieved_at)));
        return finding;
      });
}

}  // namespace prillbook::findings
