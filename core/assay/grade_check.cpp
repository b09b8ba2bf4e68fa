// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/assay/grade_check.h"

#include <algorithm>
#include <string>

namespace prillbook {
namespace {

Result<void> above_zero(const std::optional<Mass>& mass, std::string field) {
  if (mass && !(*mass > Mass())) return refusal(ErrorCode::out_of_range, std::move(field), "it must be above 0");
  return {};
}

Result<void> not_below_zero(const std::optional<Mass>& mass, std::string field) {
  if (mass && !(*mass >= Mass())) return refusal(ErrorCode::out_of_range, std::move(field), "it must not be below 0");
  return {};
}

Result<void> below_hundred(const std::optional<Share>& share, std::string field) {
  if (share && !(*share >= Share() && *share < Share(100, unit::percent)))
    return refusal(ErrorCode::out_of_range, std::move(field), "it must lie between 0 and below 100 %");
  return {};
}

Result<void> check_values(const GradeInput& input) {
  PRILLBOOK_TRY(above_zero(input.portion, "portion_g"));
  PRILLBOOK_TRY(above_zero(input.portion_step, "portion_step_g"));
  PRILLBOOK_TRY(above_zero(input.balance_step, "balance_step_mg"));
  PRILLBOOK_TRY(not_below_zero(input.repeat_sd, "repeat_sd_mg"));
  PRILLBOOK_TRY(not_below_zero(input.gold, "gold_mg"));
  PRILLBOOK_TRY(not_below_zero(input.slag, "slag_mg"));
  PRILLBOOK_TRY(not_below_zero(input.slag_gold, "slag_gold_mg"));
  PRILLBOOK_TRY(not_below_zero(input.cupel, "cupel_mg"));
  PRILLBOOK_TRY(not_below_zero(input.cupel_gold, "cupel_gold_mg"));
  PRILLBOOK_TRY(not_below_zero(input.blank, "blank_mg"));
  PRILLBOOK_TRY(not_below_zero(input.collector, "collector_mg"));
  PRILLBOOK_TRY(below_hundred(input.gold_loss, "gold_loss_pct"));
  PRILLBOOK_TRY(below_hundred(input.silver_loss, "silver_loss_pct"));
  PRILLBOOK_TRY(below_hundred(input.moisture, "moisture_pct"));
  if (input.bead.empty()) return refusal(ErrorCode::too_small, "bead_mg", "at least one weighing is needed");
  if (!std::all_of(input.bead.begin(), input.bead.end(), [](Mass mass) { return mass >= Mass(); }))
    return refusal(ErrorCode::out_of_range, "bead_mg", "a bead does not weigh less than 0");
  if (!(input.repeat_dof >= 1)) return refusal(ErrorCode::out_of_range, "repeat_dof", "at least one degree of freedom is needed");
  return {};
}

// Gold known twice, or a correction made twice.
Result<void> check_conflicts(const GradeInput& input) {
  if (input.gold && input.fineness)
    return refusal(ErrorCode::conflict, "fineness_permil", "parted gold and a fineness are two answers to one question");
  if (input.cupel && (input.gold_loss || input.silver_loss))
    return refusal(ErrorCode::conflict, "cupel_mg", "metal is recovered from the cupel or its loss is estimated, not both");
  if ((input.gold_loss || input.silver_loss) && !input.gold && !input.fineness)
    return refusal(ErrorCode::missing_key, "fineness_permil", "a loss of gold or silver needs the fineness");
  return {};
}

Result<void> check_recovered(const std::optional<Mass>& metal, const std::optional<Mass>& gold, const std::string& place) {
  if (!gold) return {};
  if (!metal) return refusal(ErrorCode::missing_key, place + "_mg", "gold of a recovered metal needs the metal");
  if (*gold > *metal) return refusal(ErrorCode::inconsistent, place + "_gold_mg", "more gold than recovered metal");
  return {};
}

}  // namespace

Result<void> check_grade_input(const GradeInput& input) {
  PRILLBOOK_TRY(check_values(input));
  PRILLBOOK_TRY(check_conflicts(input));
  PRILLBOOK_TRY(check_recovered(input.slag, input.slag_gold, "slag"));
  return check_recovered(input.cupel, input.cupel_gold, "cupel");
}

}  // namespace prillbook
