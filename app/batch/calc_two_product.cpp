// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/batch/calc_verbs.h"
#include "app/batch/output.h"
#include "core/gravity/two_product.h"

namespace prillbook::batch {
namespace {

constexpr Domain grades{0, 1e6};
constexpr Domain grades_above_zero{0, 1e6, true};

}  // namespace

Result<Json> calc_two_product(JsonInput& input) {
  PRILLBOOK_ASSIGN(const double feed, input.number("feed_g_t", grades_above_zero));
  PRILLBOOK_ASSIGN(const double concentrate, input.number("concentrate_g_t", grades_above_zero));
  PRILLBOOK_ASSIGN(const double tail, input.number("tail_g_t", grades));
  PRILLBOOK_TRY(input.finish());
  PRILLBOOK_ASSIGN(const TwoProduct result,
                   two_product(Grade(feed, unit::gram_per_tonne), Grade(concentrate, unit::gram_per_tonne),
                               Grade(tail, unit::gram_per_tonne)));
  return all_finite(
      {{"recovery_pct", result.recovery_pct}, {"mass_yield_pct", result.mass_yield_pct}, {"enrichment", result.enrichment}});
}

}  // namespace prillbook::batch
