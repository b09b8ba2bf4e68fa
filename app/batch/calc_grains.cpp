// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/batch/calc_verbs.h"
#include "app/batch/output.h"
#include "core/preparation/grains.h"

namespace prillbook::batch {
namespace {

constexpr Domain grades{0, 1e6, true};
constexpr Domain flatnesses{0, 1, true};

}  // namespace

Result<Json> calc_grains(JsonInput& input) {
  GrainShape grain;
  PRILLBOOK_ASSIGN(const double grade, input.number("grade_g_t", grades));
  PRILLBOOK_ASSIGN(const double mass, input.number("mass_g", positive));
  PRILLBOOK_ASSIGN(const double diameter, input.number("grain_um", positive));
  PRILLBOOK_ASSIGN(grain.flatness, input.optional_number("flatness", flatnesses));
  PRILLBOOK_ASSIGN(const auto density, input.optional_number("gold_density", positive));
  PRILLBOOK_TRY(input.finish());
  grain.diameter = Opening(diameter, unit::micrometre);
  if (density) grain.density = Density(*density, unit::gram_per_cubic_centimetre);
  PRILLBOOK_ASSIGN(const GrainCount count, grain_count(Grade(grade, unit::gram_per_tonne), Mass(mass, unit::gram), grain));
  return all_finite({{"expected_grains", count.expected},
                     {"relative_sd_pct", count.relative_sd_pct},
                     {"none_probability", count.none_probability},
                     {"grains_lo", count.lo},
                     {"grains_hi", count.hi}});
}

}  // namespace prillbook::batch
