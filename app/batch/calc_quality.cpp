// SPDX-License-Identifier: GPL-3.0-or-later
// The verbs pairs, control and robust.
#include <fmt/format.h>

#include <cmath>

#include "app/batch/calc_verbs.h"
#include "app/batch/output.h"
#include "core/quality/control.h"
#include "core/quality/pairs.h"
#include "core/quality/robust.h"

namespace prillbook::batch {
namespace {

constexpr std::size_t fewest_for_robust = 3;

Result<double> pair_value(JsonInput& input, const nlohmann::json& value, std::size_t pair, std::size_t side) {
  const std::string key = fmt::format("pairs[{}][{}]", pair, side);
  if (!value.is_number()) return input.error(ErrorCode::wrong_type, key, key + ": a number is needed");
  const double number = value.get<double>();
  if (!std::isfinite(number)) return input.error(ErrorCode::not_finite, key, key + ": the number is not finite");
  return number;
}

Result<std::vector<Pair>> read_pairs(JsonInput& input) {
  const nlohmann::json* list = input.raw("pairs");
  if (!list) return input.error(ErrorCode::missing_key, "pairs", "pairs is missing");
  if (!list->is_array()) return input.error(ErrorCode::wrong_type, "pairs", "pairs: a list of pairs is needed");
  std::vector<Pair> pairs;
  for (std::size_t i = 0; i < list->size(); ++i) {
    const nlohmann::json& item = (*list)[i];
    if (!item.is_array() || item.size() != 2)
      return input.error(ErrorCode::wrong_type, fmt::format("pairs[{}]", i), "a list of exactly two numbers is needed");
    PRILLBOOK_ASSIGN(const double first, pair_value(input, item[0], i, 0));
    PRILLBOOK_ASSIGN(const double second, pair_value(input, item[1], i, 1));
    pairs.push_back({first, second});
  }
  return pairs;
}

}  // namespace

Result<Json> calc_pairs(JsonInput& input) {
  PRILLBOOK_ASSIGN(const std::vector<Pair> pairs, read_pairs(input));
  PRILLBOOK_TRY(input.finish());
  PRILLBOOK_ASSIGN(const PairStatistics result, pair_statistics(pairs));
  return all_finite({{"n", result.n},
                     {"cv_average_pct", result.cv_average_pct},
                     {"half_ard_median_pct", result.half_ard_median_pct},
                     {"repeat_sd", result.repeat_sd}});
}

Result<Json> calc_control(JsonInput& input) {
  PRILLBOOK_ASSIGN(const std::vector<double> values, input.numbers("values"));
  PRILLBOOK_ASSIGN(const double target, input.number("target"));
  PRILLBOOK_ASSIGN(const double sd, input.number("sd", positive));
  PRILLBOOK_TRY(input.finish());
  PRILLBOOK_ASSIGN(const std::vector<ControlSignal> signals, control_signals(values, target, sd));
  Json list = Json::array();
  for (const ControlSignal& signal : signals) list.push_back({{"index", signal.index}, {"rule", contract_name(signal.rule)}});
  return Json{{"signals", std::move(list)}};
}

Result<Json> calc_robust(JsonInput& input) {
  PRILLBOOK_ASSIGN(const std::vector<double> values, input.numbers("values", any_number, fewest_for_robust));
  PRILLBOOK_ASSIGN(const double k, input.number_or("k", huber_k, Domain{0.1, 100}));
  PRILLBOOK_TRY(input.finish());
  PRILLBOOK_ASSIGN(const RobustResult result, robust_statistics(values, k));
  Json output{
      {"median", result.median}, {"mad_sd", result.mad_sd}, {"huber_mean", result.huber.mean}, {"huber_sd", result.huber.sd}};
  if (result.grubbs_g) output["grubbs_g"] = *result.grubbs_g;
  output["grubbs_critical"] = result.grubbs_critical;
  return all_finite(std::move(output));
}

}  // namespace prillbook::batch
