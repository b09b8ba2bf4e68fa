// SPDX-License-Identifier: GPL-3.0-or-later
#include <fmt/format.h>

#include "app/batch/calc_verbs.h"
#include "app/batch/grade_input.h"
#include "core/assay/compare.h"

namespace prillbook::batch {
namespace {

Result<CompareSide> side_of(const JsonInput& object, const GradeInput& read) {
  PRILLBOOK_ASSIGN(const GradeResult result, graded(object, read));
  Result<CompareSide> side = compare_side(result);
  if (!side) return under(object, side.error());
  return side;
}

Result<CompareSide> read_side(JsonInput& input, std::string_view key) {
  PRILLBOOK_ASSIGN(JsonInput object, input.child(key));
  PRILLBOOK_ASSIGN(const GradeInput read, read_grade_input(object));
  PRILLBOOK_ASSIGN(const std::optional<double> grain, object.optional_number("grain_um", positive));
  PRILLBOOK_ASSIGN(const std::optional<double> u_sampling, object.optional_number("u_sampling_pct", not_negative));
  PRILLBOOK_TRY(object.finish());
  PRILLBOOK_ASSIGN(CompareSide side, side_of(object, read));
  if (grain) side.grain = Opening(*grain, unit::micrometre);
  if (u_sampling) side.u_sampling = Share(*u_sampling, unit::percent);
  return side;
}

Result<std::optional<Residue>> read_residue(JsonInput& input, std::string_view key) {
  if (!input.has(key)) {
    input.raw(key);
    return std::optional<Residue>{};
  }
  const std::string mass_key = fmt::format("{}_mass_g", key);
  PRILLBOOK_ASSIGN(JsonInput object, input.child(key));
  PRILLBOOK_ASSIGN(const GradeInput read, read_grade_input(object));
  PRILLBOOK_ASSIGN(const double mass, object.number(mass_key, positive));
  PRILLBOOK_TRY(object.finish());
  PRILLBOOK_ASSIGN(const CompareSide side, side_of(object, read));
  return std::optional<Residue>{Residue{side.gold, Mass(mass, unit::gram)}};
}

// `metal` is "gold" or "silver"; `before` stands before recovery, gap and verdict: "" or "silver_".
void put_gap(Json& output, const std::string& metal, const std::string& before, Grade pan, Grade fire, const Gap& gap) {
  const auto g_t = [](Grade grade) { return grade.in(unit::gram_per_tonne); };
  output["pan_" + metal + "_g_t"] = g_t(pan);
  output["fire_" + metal + "_g_t"] = g_t(fire);
  const std::string recovery = before + "recovery_pct";
  if (gap.recovery) output[recovery] = *gap.recovery * 100;
  if (gap.recovery_interval) output[recovery + "_lo"] = gap.recovery_interval->lo * 100;
  if (gap.recovery_interval && gap.recovery_interval->hi)
    output[recovery + "_hi"] = *gap.recovery_interval->hi * 100;
  else if (gap.recovery_interval || !gap.recovery)
    output[before + "recovery_status"] = "unbounded";
  output[before + "gap_g_t"] = g_t(gap.value);
  if (gap.lo) output[before + "gap_g_t_lo"] = g_t(*gap.lo);
  if (gap.hi) output[before + "gap_g_t_hi"] = g_t(*gap.hi);
  output[before + "verdict"] = verdict_name(gap.verdict);
}

void put_balance(Json& output, const PanBalance& balance) {
  output["calculated_head_g_t"] = balance.calculated_head.g_t();
  if (balance.recovery_of_head) output["recovery_of_head_pct"] = *balance.recovery_of_head * 100;
  if (balance.gravity_recovery) output["gravity_recovery_pct"] = *balance.gravity_recovery * 100;
  if (balance.closure) output["closure_pct"] = *balance.closure * 100;
  output["unaccounted_g"] = balance.unaccounted.in(unit::gram);
  output["warnings"] = Json::array();
  for (const BalanceWarning warning : balance.warnings) output["warnings"].push_back(warning_name(warning));
}

Result<CompareInput> read(JsonInput& input) {
  CompareInput result;
  PRILLBOOK_ASSIGN(result.pan, read_side(input, "pan"));
  PRILLBOOK_ASSIGN(result.fire, read_side(input, "fire"));
  PRILLBOOK_TRY(input.optional_number("p80_um", positive));  // tells the grind of this pan test; no figure rests on it
  PRILLBOOK_ASSIGN(result.tail, read_residue(input, "tail"));
  PRILLBOOK_ASSIGN(result.remainder, read_residue(input, "remainder"));
  return result;
}

}  // namespace

Result<Json> calc_compare(JsonInput& input) {
  PRILLBOOK_ASSIGN(const CompareInput sides, read(input));
  PRILLBOOK_TRY(input.finish());
  const Result<Comparison> result = compare_pan_with_fire(sides);
  if (!result) return under(input, result.error());
  Json output;
  put_gap(output, "gold", "", sides.pan.gold.value, sides.fire.gold.value, result->gold);
  if (result->basis) output["verdict_basis"] = basis_name(*result->basis);
  if (result->silver)
    put_gap(output, "silver", "silver_", sides.pan.silver->value, sides.fire.silver->value, *result->silver);
  else if (result->silver_asked)
    output["silver_verdict"] = verdict_name(Verdict::not_determined);
  if (result->balance) put_balance(output, *result->balance);
  return output;
}

}  // namespace prillbook::batch
