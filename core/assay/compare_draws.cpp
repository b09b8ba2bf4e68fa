// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/assay/compare_draws.h"

#include <algorithm>
#include <numeric>

namespace prillbook {
namespace {

std::optional<double> g_t(const std::optional<Grade>& grade) {
  if (!grade) return std::nullopt;
  return grade->in(unit::gram_per_tonne);
}

}  // namespace

Result<DrawnComparison> draw_comparison(const Comparison& comparison, const DrawOptions& options) {
  const auto& [pan_g_t, fire_g_t, pan_parts, fire_parts] = comparison.gold_sides;
  if (pan_parts.empty() || fire_parts.empty())
    return refusal(ErrorCode::missing_key, "u", "an uncertainty is missing on one side");
  std::vector<Contribution> inputs(pan_parts.begin(), pan_parts.end());
  inputs.insert(inputs.end(), fire_parts.begin(), fire_parts.end());
  const std::size_t of_pan = pan_parts.size();
  std::int64_t left_behind = 0;
  const auto model = [&, pan_value = pan_g_t, fire_value = fire_g_t](std::span<const double> offsets) {
    const auto sum = [](double from, std::span<const double> list) { return std::accumulate(list.begin(), list.end(), from); };
    const double pan = std::max(0.0, sum(pan_value, offsets.first(of_pan)));
    const double fire = std::max(0.0, sum(fire_value, offsets.subspan(of_pan)));
    left_behind += fire > pan;
    return std::array{pan, fire, fire - pan, fire > 0 ? pan / fire : std::numeric_limits<double>::infinity()};
  };
  PRILLBOOK_ASSIGN(const auto drawn, draw<4>(inputs, model, options));
  DrawnComparison result{options.draws, options.seed, drawn[0], drawn[1], drawn[2], drawn[3], 0, {}, {}};
  result.left_behind_share = double(left_behind) / double(options.draws);
  const Gap& gold = comparison.gold;
  result.gap_agreement = agreement(combined_u(inputs), g_t(gold.lo), g_t(gold.hi), result.gap);
  if (gold.recovery_interval)
    result.recovery_agreement =
        agreement(result.recovery.sd, gold.recovery_interval->lo, gold.recovery_interval->hi, result.recovery);
  return result;
}

}  // namespace prillbook
