// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/batch/calc_verbs.h"
#include "app/batch/output.h"
#include "core/preparation/gy.h"

namespace prillbook::batch {
namespace {

constexpr Domain grades{0, 1e6, true};
constexpr Domain exponents{0, 3};
constexpr const char* gy_keys[] = {"top_size_um", "liberation_um", "grade_g_t", "mass_g",      "lot_g",
                                   "shape",       "range_factor",  "exponent",  "gold_density"};

Result<std::optional<Share>> read_target(JsonInput& input) {
  PRILLBOOK_ASSIGN(const auto pct, input.optional_number("target_pct", positive));
  return pct ? std::optional(Share(*pct, unit::percent)) : std::nullopt;
}

Result<GyInput> read_gy(JsonInput& input) {
  GyInput gy;
  PRILLBOOK_ASSIGN(const double top, input.number("top_size_um", positive));
  PRILLBOOK_ASSIGN(const double liberation, input.number("liberation_um", positive));
  PRILLBOOK_ASSIGN(const double grade, input.number("grade_g_t", grades));
  PRILLBOOK_ASSIGN(const double mass, input.number("mass_g", positive));
  PRILLBOOK_ASSIGN(gy.target, read_target(input));
  PRILLBOOK_ASSIGN(const auto lot, input.optional_number("lot_g", positive));
  PRILLBOOK_ASSIGN(gy.shape, input.number_or("shape", gy.shape, positive));
  PRILLBOOK_ASSIGN(gy.range_factor, input.number_or("range_factor", gy.range_factor, positive));
  PRILLBOOK_ASSIGN(gy.exponent, input.number_or("exponent", gy.exponent, exponents));
  PRILLBOOK_ASSIGN(const auto density, input.optional_number("gold_density", positive));
  PRILLBOOK_TRY(input.finish());
  gy.top_size = Opening(top, unit::micrometre);
  gy.liberation = Opening(liberation, unit::micrometre);
  gy.grade = Grade(grade, unit::gram_per_tonne);
  gy.mass = Mass(mass, unit::gram);
  if (lot) gy.lot = Mass(*lot, unit::gram);
  if (density) gy.gold_density = Density(*density, unit::gram_per_cubic_centimetre);
  return gy;
}

Result<Json> by_gy(JsonInput& input) {
  PRILLBOOK_ASSIGN(const GyInput gy, read_gy(input));
  PRILLBOOK_ASSIGN(const GyResult result, gy_error(gy));
  Json output{{"relative_sd_pct", result.relative_sd_pct}, {"form", result.form}};
  if (result.mass_for_target) output["mass_for_target_g"] = result.mass_for_target->in(unit::gram);
  return all_finite(std::move(output));
}

Result<Json> by_ingamells(JsonInput& input) {
  for (const char* key : gy_keys)
    if (input.has(key)) return input.error(ErrorCode::conflict, key, "Gy's formula and an Ingamells set exclude each other");
  PRILLBOOK_ASSIGN(const std::vector<double> masses_g, input.numbers("masses_g", positive, 2));
  PRILLBOOK_ASSIGN(const std::vector<double> values, input.numbers("values", not_negative, 2));
  PRILLBOOK_ASSIGN(const auto target, read_target(input));
  PRILLBOOK_TRY(input.finish());
  std::vector<Mass> masses;
  for (const double grams : masses_g) masses.emplace_back(grams, unit::gram);
  PRILLBOOK_ASSIGN(const IngamellsResult result, ingamells(masses, values, target));
  Json output{{"ingamells_ks_g", result.constant_g}, {"mean", result.mean}, {"sd", result.sd}};
  if (result.mass_for_target) output["mass_for_target_g"] = result.mass_for_target->in(unit::gram);
  return all_finite(std::move(output));
}

}  // namespace

Result<Json> calc_sampling(JsonInput& input) {
  return input.has("masses_g") || input.has("values") ? by_ingamells(input) : by_gy(input);
}

}  // namespace prillbook::batch
