// SPDX-License-Identifier: GPL-3.0-or-later
// Sieves of more than one series in one stack.
#include <fmt/format.h>

#include <algorithm>

#include "core/findings/sieve_evidence.h"

namespace prillbook::findings {

std::optional<Finding> sieve_mixed_series(const Scene& scene) {
  return first_of_analyses(
      scene, [&](const sieves::Analysis& analysis, const results::SizeResult& size) -> std::optional<Finding> {
        std::vector<std::string> seen;
        for (const sieves::Cut& cut : analysis.cuts) {
          if (!cut.series) continue;
          const std::string words(series_words(*cut.series));
          if (std::find(seen.begin(), seen.end(), words) == seen.end()) seen.push_back(words);
        }
        if (seen.size() < 2) return std::nullopt;
        Finding finding = about_sieves(scene, "sieve_mixed_series", Severity::note);
        finding.seen = fmt::format("The stack of {} holds sieves of {}.", size.label, fmt::join(seen, " and "));
        finding.why = "One mesh number may mean two openings, and the steps between sieves of two series are uneven.";
        finding.to_do = "Look at the rims: is each opening in µm the one written here?";
        finding.source = "common practice";
        finding.evidence = {of_analysis(size, "series", fmt::format("{}", fmt::join(seen, ", ")))};
        return finding;
      });
}

}  // namespace prillbook::findings
