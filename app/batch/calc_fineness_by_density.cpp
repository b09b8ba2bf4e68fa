// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/batch/calc_verbs.h"
#include "app/batch/grade_input.h"
#include "core/assay/density_fineness.h"

namespace prillbook::batch {
namespace {

Result<void> read_density(JsonInput& input, std::string_view key, Density& density) {
  PRILLBOOK_ASSIGN(const double value, input.number_or(key, density.in(unit::gram_per_cubic_centimetre), positive));
  density = Density(value, unit::gram_per_cubic_centimetre);
  return {};
}

Result<DensityInput> read(JsonInput& input) {
  DensityInput result;
  PRILLBOOK_ASSIGN(const double air, input.number("air_g", positive));
  PRILLBOOK_ASSIGN(const double immersed, input.number("immersed_g", not_negative));
  result.air = Mass(air, unit::gram);
  result.immersed = Mass(immersed, unit::gram);
  PRILLBOOK_TRY(read_density(input, "liquid_density", result.liquid));
  PRILLBOOK_TRY(read_density(input, "gold_density", result.gold));
  PRILLBOOK_TRY(read_density(input, "silver_density", result.silver));
  PRILLBOOK_ASSIGN(const std::optional<double> step, input.optional_number("balance_step_g", positive));
  if (step) result.balance_step = Mass(*step, unit::gram);
  return result;
}

}  // namespace

Result<Json> calc_fineness_by_density(JsonInput& input) {
  PRILLBOOK_ASSIGN(const DensityInput weights, read(input));
  PRILLBOOK_TRY(input.finish());
  const Result<DensityFineness> result = fineness_by_density(weights);
  if (!result) return under(input, result.error());
  Json output{{"density", result->density.in(unit::gram_per_cubic_centimetre)},
              {"fineness_permil", result->fineness.in(unit::permil)}};
  if (result->u) output["u_fineness_permil"] = result->u->in(unit::permil);
  return output;
}

}  // namespace prillbook::batch
