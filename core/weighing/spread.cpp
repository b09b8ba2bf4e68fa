// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/weighing/spread.h"

#include <algorithm>
#include <cmath>

#include "core/assay/repeats.h"
#include "core/quality/robust.h"
#include "core/units/units.h"

namespace prillbook::weighing {
namespace {

constexpr double five_per_cent = 0.05;

bool is_in_keeping(double grade, double usual) { return grade <= usual * out_of_keeping && grade * out_of_keeping >= usual; }

}  // namespace

Spread spread_of(const Bead& bead, std::string_view what) {
  const auto counted = bead.valid(what);
  std::vector<Mass> masses;
  for (const Weighing* one : counted) masses.push_back(one->mass.mass());
  Spread spread;
  if (masses.empty()) return spread;
  const RepeatStatistics repeats = repeat_statistics(masses);
  spread.n = repeats.n;
  spread.mean = repeats.mean;
  spread.sd = repeats.sd;
  if (repeats.n < 3 || !repeats.sd || !(*repeats.sd > Mass())) return spread;
  const auto distance = [&](const Weighing* one) { return std::abs((one->mass.mass() - repeats.mean).in(unit::gram)); };
  const auto farthest = std::max_element(counted.begin(), counted.end(),
                                         [&](const Weighing* a, const Weighing* b) { return distance(a) < distance(b); });
  spread.grubbs = distance(*farthest) / repeats.sd->in(unit::gram);
  spread.critical = grubbs_critical(masses.size(), five_per_cent, true);
  if (*spread.grubbs > *spread.critical) spread.outlier = *farthest;
  return spread;
}

std::optional<double> usual_grade_g_t(const lab::Settings& settings, const std::optional<std::string>& expected) {
  if (expected == "barren") return settings.barren_g_t;
  if (expected == "low") return settings.low_g_t;
  if (expected == "ordinary") return settings.ordinary_g_t;
  if (expected == "rich") return settings.rich_g_t;
  if (expected == "specimen") return settings.specimen_g_t;
  return std::nullopt;
}

bool perhaps_swapped(double grade, double usual, double grade_as_other, double usual_of_other) {
  return usual > 0 && usual_of_other > 0 && !is_in_keeping(grade, usual) && is_in_keeping(grade_as_other, usual_of_other);
}

}  // namespace prillbook::weighing
