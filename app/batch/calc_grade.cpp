// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/batch/calc_verbs.h"
#include "app/batch/grade_input.h"

namespace prillbook::batch {
namespace {

void put_uncertainty(Json& output, const std::string& name, const MeasuredGrade& grade) {
  if (grade.spread) output["u_" + name + "_g_t"] = grade.spread->u;
}

void put_budget(Json& output, const GradeResult& result) {
  if (!result.bead.spread && !(result.gold && result.gold->spread)) return;
  Json budget = Json::array();
  for (const BudgetLine& line : result.budget)
    budget.push_back({{"source", source_name(line.source)}, {"share_pct", line.share_pct}});
  output["budget"] = std::move(budget);
}

Json written(const GradeResult& result) {
  Json output;
  put_grade(output, "bead", result.bead.value);
  put_uncertainty(output, "bead", result.bead);
  if (result.gold) {
    put_grade(output, "gold", result.gold->value);
    put_uncertainty(output, "gold", *result.gold);
    if (result.gold->lo) output["gold_g_t_lo"] = result.gold->lo->in(unit::gram_per_tonne);
    if (result.gold->hi) output["gold_g_t_hi"] = result.gold->hi->in(unit::gram_per_tonne);
  }
  if (result.silver) put_grade(output, "silver", result.silver->value);
  output["silver_status"] = status_name(result.silver_status);
  if (result.silver_hi) output["silver_g_t_hi"] = result.silver_hi->in(unit::gram_per_tonne);
  if (result.recovered) put_grade(output, "recovered", result.recovered->value);
  if (result.recovered_gold) put_grade(output, "recovered_gold", result.recovered_gold->value);
  put_budget(output, result);
  return output;
}

}  // namespace

Result<Json> calc_grade(JsonInput& input) {
  PRILLBOOK_ASSIGN(const GradeInput read, read_grade_input(input));
  PRILLBOOK_TRY(input.finish());
  PRILLBOOK_ASSIGN(const GradeResult result, graded(input, read));
  return written(result);
}

}  // namespace prillbook::batch
