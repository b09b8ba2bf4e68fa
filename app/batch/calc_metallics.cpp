// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/batch/calc_verbs.h"
#include "app/batch/grade_input.h"
#include "core/assay/metallics.h"

namespace prillbook::batch {
namespace {

Result<MetallicsInput> read(JsonInput& input) {
  MetallicsInput result;
  PRILLBOOK_ASSIGN(const double coarse_mass, input.number("coarse_mass_g", not_negative));
  PRILLBOOK_ASSIGN(const double coarse_metal, input.number("coarse_metal_mg", not_negative));
  PRILLBOOK_ASSIGN(const double fine_mass, input.number("fine_mass_g", positive));
  result.coarse_mass = Mass(coarse_mass, unit::gram);
  result.coarse_metal = Mass(coarse_metal, unit::milligram);
  result.fine_mass = Mass(fine_mass, unit::gram);
  PRILLBOOK_ASSIGN(std::vector<JsonInput> portions, input.children("fine"));
  for (JsonInput& one : portions) {
    PRILLBOOK_ASSIGN(const double portion, one.number("portion_g", positive));
    PRILLBOOK_ASSIGN(const double metal, one.number("metal_mg", not_negative));
    PRILLBOOK_TRY(one.finish());
    result.fine.push_back({Mass(portion, unit::gram), Mass(metal, unit::milligram)});
  }
  return result;
}

}  // namespace

Result<Json> calc_metallics(JsonInput& input) {
  PRILLBOOK_ASSIGN(const MetallicsInput masses, read(input));
  PRILLBOOK_TRY(input.finish());
  const Result<MetallicsResult> result = metallics(masses);
  if (!result) return under(input, result.error());
  Json output;
  put_grade(output, "grade", result->grade);
  if (result->coarse_share) output["coarse_share_pct"] = *result->coarse_share * 100;
  output["fine_grade_g_t"] = result->fine_grade.in(unit::gram_per_tonne);
  if (result->u) output["u_grade_g_t"] = result->u->in(unit::gram_per_tonne);
  return output;
}

}  // namespace prillbook::batch
