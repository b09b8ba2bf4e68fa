// SPDX-License-Identifier: GPL-3.0-or-later
// Two neighbouring sieves whose masses would make a smooth curve if they were exchanged.
#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "core/findings/sieve_evidence.h"

namespace prillbook::findings {
namespace {

constexpr double least_step = 1.25;   // between the two densities, so that the scatter of a sieving is no dip
constexpr double least_share = 0.03;  // of everything found, on each of the two

// Mass by width of its class on the logarithmic scale. The first class and the pan are open and have no width.
std::vector<double> densities(const std::vector<sieves::Cut>& cuts, const std::vector<double>& masses) {
  std::vector<double> list;
  for (std::size_t i = 1; i < cuts.size() && !cuts[i].is_pan(); ++i)
    list.push_back(masses[i] / std::log(*cuts[i - 1].opening / *cuts[i].opening));
  return list;
}

// How often it turns from rising to falling or back; broken rock turns once at most.
int turns(const std::vector<double>& densities) {
  int count = 0, direction = 0;
  for (std::size_t i = 1; i < densities.size(); ++i) {
    const int now = densities[i] > densities[i - 1] ? 1 : densities[i] < densities[i - 1] ? -1 : direction;
    if (direction != 0 && now != direction) ++count;
    direction = now;
  }
  return count;
}

// The coarser of the two, by its place; nullopt where no exchange, or more than one, makes it smooth.
std::optional<std::size_t> exchanged(const std::vector<sieves::Cut>& cuts, std::vector<double> masses, double found) {
  if (turns(densities(cuts, masses)) < 2) return std::nullopt;
  std::optional<std::size_t> only;
  for (std::size_t i = 1; i + 1 < cuts.size() && !cuts[i + 1].is_pan(); ++i) {
    const double low = std::min(masses[i], masses[i + 1]), high = std::max(masses[i], masses[i + 1]);
    if (low < least_share * found || high < least_step * low) continue;
    std::swap(masses[i], masses[i + 1]);
    const bool smooth = turns(densities(cuts, masses)) < 2;
    std::swap(masses[i], masses[i + 1]);
    if (!smooth) continue;
    if (only) return std::nullopt;
    only = i;
  }
  return only;
}

}  // namespace

std::optional<Finding> sieve_uneven(const Scene& scene) {
  return first_of_analyses(
      scene, [&](const sieves::Analysis& analysis, const results::SizeResult& size) -> std::optional<Finding> {
        if (!size.curve) return std::nullopt;
        std::vector<double> masses;
        double found = 0;
        for (const sieves::Cut& cut : analysis.cuts) {
          masses.push_back(cut.retained ? cut.retained->mass().in(unit::gram) : 0);
          found += masses.back();
        }
        const auto place = exchanged(analysis.cuts, masses, found);
        if (!place) return std::nullopt;
        const sieves::Cut &coarse = analysis.cuts[*place], &fine = analysis.cuts[*place + 1];
        const DecimalMark mark = scene.record.settings.decimal_mark;
        const auto line = [&](const sieves::Cut& cut) {
          return fmt::format("{} on {}", cut.retained->typed, opening_in_words(*cut.opening, mark));
        };
        Finding finding = about_sieves(scene, "sieve_uneven", Severity::note);
        finding.seen = fmt::format("In {} the curve dips between {} and {}; with the two exchanged it would be smooth.",
                                   size.label, line(coarse), line(fine));
        finding.why =
            "Broken rock seldom lacks one size alone: two figures may have changed places, or a sieve is torn or blinded.";
        finding.to_do = "Look at the bench sheet, and at the cloth of both sieves.";
        finding.source = "common practice, no source";
        finding.evidence = {of_analysis(size, "masses", line(coarse) + ", " + line(fine))};
        return finding;
      });
}

}  // namespace prillbook::findings
