// SPDX-License-Identifier: GPL-3.0-or-later
// Two neighbouring sieves whose masses would make a smooth curve if they were exchanged.
#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <utility>

#include "core/findings/sieve_evidence.h"

namespace prillbook::findings {
namespace {

constexpr double least_step = 1.25;   // between the two densities, so that the scatter of a sieving is no dip
constexpr double least_share = 0.03;  // of everything found, on each of the two
constexpr double enough = 0.5;        // of the roughness, as it is and with any other exchange

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

// How far the curve of the densities is from running straight on, class by class.
double roughness(const std::vector<double>& densities) {
  double sum = 0;
  for (std::size_t i = 2; i < densities.size(); ++i) sum += std::abs(densities[i] - 2 * densities[i - 1] + densities[i - 2]);
  return sum;
}

// The coarser of the two whose exchange smooths most, by its place; nullopt where none smooths enough, or another nearly as
// much.
std::optional<std::size_t> exchanged(const std::vector<sieves::Cut>& cuts, std::vector<double> masses, double found) {
  if (turns(densities(cuts, masses)) < 2) return std::nullopt;
  const double before = roughness(densities(cuts, masses));
  double best = before, next = before;
  std::optional<std::size_t> place;
  for (std::size_t i = 1; i + 1 < cuts.size() && !cuts[i + 1].is_pan(); ++i) {
    const double low = std::min(masses[i], masses[i + 1]), high = std::max(masses[i], masses[i + 1]);
    if (low < least_share * found || high < least_step * low) continue;
    std::swap(masses[i], masses[i + 1]);
    const std::vector<double> made = densities(cuts, masses);
    std::swap(masses[i], masses[i + 1]);
    const double rough = turns(made) < 2 ? roughness(made) : before;
    if (rough < best)
      next = std::exchange(best, rough), place = i;
    else
      next = std::min(next, rough);
  }
  return best < enough * before && best < enough * next ? place : std::nullopt;
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
