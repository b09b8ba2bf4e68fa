// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/batch/calc_verbs.h"
#include "app/batch/output.h"
#include "core/preparation/carry_over.h"

namespace prillbook::batch {
namespace {

constexpr Domain grades{0, 1e6};

}  // namespace

Result<Json> calc_mix_carryover(JsonInput& input) {
  CarryOverInput mix;
  PRILLBOOK_ASSIGN(const double sample, input.number("sample_g", positive));
  PRILLBOOK_ASSIGN(const double previous, input.number("previous_g_t", grades));
  PRILLBOOK_ASSIGN(const double own, input.number("own_g_t", grades));
  PRILLBOOK_ASSIGN(const double holdup, input.number("holdup_g", not_negative));
  if (input.has("flushes")) {
    PRILLBOOK_ASSIGN(const std::vector<double> flushes, input.numbers("flushes", positive, 0));
    for (const double grams : flushes) mix.flushes.emplace_back(grams, unit::gram);
  }
  PRILLBOOK_TRY(input.finish());
  mix.sample = Mass(sample, unit::gram);
  mix.previous = Grade(previous, unit::gram_per_tonne);
  mix.own = Grade(own, unit::gram_per_tonne);
  mix.holdup = Mass(holdup, unit::gram);
  PRILLBOOK_ASSIGN(const CarryOverResult result, mix_carryover(mix));
  Json output{{"apparent_g_t", result.apparent.in(unit::gram_per_tonne)},
              {"carryover_g_t", result.carryover.in(unit::gram_per_tonne)}};
  if (result.carryover_pct) output["carryover_pct"] = *result.carryover_pct;
  return all_finite(std::move(output));
}

}  // namespace prillbook::batch
