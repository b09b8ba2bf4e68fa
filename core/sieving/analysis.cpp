// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/sieving/analysis.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <numeric>

namespace prillbook {
namespace {

// Figures typed in decimal reach their limit only to a rounding error.
constexpr double rounding = 1e-9;
constexpr double largest_gain_pct = 2;
constexpr double widest_bracket = 2;

Result<void> check_openings_differ(const std::vector<SieveCut>& cuts) {
  std::vector<std::size_t> order(cuts.size());
  std::iota(order.begin(), order.end(), std::size_t{0});
  std::stable_sort(order.begin(), order.end(), [&](std::size_t a, std::size_t b) { return cuts[a].opening < cuts[b].opening; });
  for (std::size_t i = 1; i < order.size(); ++i)
    if (cuts[order[i]].opening == cuts[order[i - 1]].opening)
      return refusal(ErrorCode::conflict, fmt::format("cuts[{}].opening_um", order[i]), "the same opening stands twice");
  return {};
}

Result<void> check_domains(const SieveAnalysis& analysis) {
  const auto bad = [](double value, bool zero_allowed) {
    return !std::isfinite(value) || value < 0 || (!zero_allowed && value <= 0);
  };
  if (analysis.cuts.empty()) return refusal(ErrorCode::too_small, "cuts", "at least one sieve is needed");
  if (bad(analysis.portion.in(unit::gram), false))
    return refusal(ErrorCode::out_of_range, "portion_g", "the portion must be above 0");
  if (bad(analysis.pan.in(unit::gram), true)) return refusal(ErrorCode::out_of_range, "pan_g", "the pan must not be below 0");
  for (std::size_t i = 0; i < analysis.cuts.size(); ++i) {
    if (bad(analysis.cuts[i].opening.in(unit::micrometre), false))
      return refusal(ErrorCode::out_of_range, fmt::format("cuts[{}].opening_um", i), "an opening must be above 0");
    if (bad(analysis.cuts[i].retained.in(unit::gram), true))
      return refusal(ErrorCode::out_of_range, fmt::format("cuts[{}].retained_g", i), "a retained mass must not be below 0");
  }
  return check_openings_differ(analysis.cuts);
}

// Coarse to fine. Masses are summed from the pan upwards, so that 0 and 100 % come out exactly.
SieveResult curve(const SieveAnalysis& analysis) {
  std::vector<SieveCut> cuts = analysis.cuts;
  std::sort(cuts.begin(), cuts.end(), [](const SieveCut& a, const SieveCut& b) { return a.opening < b.opening; });
  std::vector<Mass> passing;
  Mass total = analysis.pan;
  for (const SieveCut& cut : cuts) {
    passing.push_back(total);
    total += cut.retained;
  }
  SieveResult result;
  result.total = total;
  result.pan_pct = 100 * (analysis.pan / total);
  for (std::size_t i = cuts.size(); i-- > 0;)
    result.rows.push_back(
        {cuts[i].opening, 100 * (cuts[i].retained / total), 100 * ((total - passing[i]) / total), 100 * (passing[i] / total)});
  return result;
}

std::vector<SieveWarning> warnings_for(const SieveAnalysis& analysis, const SieveResult& result) {
  std::vector<SieveWarning> warnings;
  const double limit = loss_limit_pct(analysis) + rounding;
  if (result.loss_pct > limit) warnings.push_back(SieveWarning::loss_above_limit);
  if (-result.loss_pct > limit) warnings.push_back(SieveWarning::gain_above_limit);
  if (result.p80.status == SizeStatus::inside && result.p80.bracket_ratio > widest_bracket + rounding)
    warnings.push_back(SieveWarning::wide_bracket);
  const auto foreign = [&](const SieveCut& cut) { return !in_series(*analysis.series, cut.opening); };
  if (analysis.series && std::any_of(analysis.cuts.begin(), analysis.cuts.end(), foreign))
    warnings.push_back(SieveWarning::opening_not_in_series);
  return warnings;
}

Opening interpolated(const SieveRow& finer, const SieveRow& coarser, double percent) {
  const double share = (percent - finer.passing_pct) / (coarser.passing_pct - finer.passing_pct);
  return finer.opening * std::pow(coarser.opening / finer.opening, share);
}

}  // namespace

std::string_view contract_name(SieveWarning warning) {
  switch (warning) {
    case SieveWarning::loss_above_limit: return "loss_above_limit";
    case SieveWarning::gain_above_limit: return "gain_above_limit";
    case SieveWarning::wide_bracket: return "wide_bracket";
    case SieveWarning::opening_not_in_series: return "opening_not_in_series";
  }
  return "";
}

std::string_view contract_name(SizeStatus status) {
  switch (status) {
    case SizeStatus::inside: return "inside";
    case SizeStatus::above_top_sieve: return "above_top_sieve";
    case SizeStatus::below_bottom_sieve: return "below_bottom_sieve";
  }
  return "";
}

double loss_limit_pct(const SieveAnalysis& analysis) {
  const double limit = analysis.max_loss.in(unit::percent);
  if (!analysis.step) return limit;
  const double weighings = static_cast<double>(analysis.cuts.size()) + 2;
  const Mass u = *analysis.step * std::sqrt(weighings / 12);
  return std::max(limit, 100 * (2 * u / analysis.portion));
}

Result<SieveResult> analyse(const SieveAnalysis& analysis) {
  PRILLBOOK_TRY(check_domains(analysis));
  SieveResult result = curve(analysis);
  if (!std::isfinite(result.total.in(unit::gram)))
    return refusal(ErrorCode::not_finite, "cuts", "the sum of the masses is not finite");
  if (!(result.total > Mass{})) return refusal(ErrorCode::inconsistent, "cuts", "nothing was found after sieving");
  result.loss_pct = 100 * ((analysis.portion - result.total) / analysis.portion);
  if (-result.loss_pct > largest_gain_pct + rounding)
    return refusal(ErrorCode::inconsistent, "portion_g",
                   fmt::format("{:.3f} % more was found than was sieved", -result.loss_pct));
  result.p80 = passing_size(result.rows, 80);
  result.p50 = passing_size(result.rows, 50);
  result.warnings = warnings_for(analysis, result);
  return result;
}

std::vector<SieveRow> rows_so_far(Mass portion, std::vector<SieveCut> weighed) {
  std::sort(weighed.begin(), weighed.end(), [](const SieveCut& a, const SieveCut& b) { return a.opening > b.opening; });
  std::vector<SieveRow> rows;
  double cumulative = 0;
  for (const SieveCut& cut : weighed) {
    const double retained = 100 * (cut.retained / portion);
    cumulative = std::min(100.0, cumulative + retained);
    rows.push_back({cut.opening, retained, cumulative, 100 - cumulative});
  }
  return rows;
}

PassingSize passing_size(const std::vector<SieveRow>& rows, double percent) {
  if (rows.front().passing_pct < percent - rounding) return {SizeStatus::above_top_sieve, std::nullopt, 1};
  if (rows.back().passing_pct > percent + rounding) return {SizeStatus::below_bottom_sieve, std::nullopt, 1};
  const auto at_least = [&](const SieveRow& row) { return row.passing_pct >= percent - rounding; };
  const auto coarser = std::find_if(rows.rbegin(), rows.rend(), at_least);  // the finest sieve that lets `percent` through
  if (coarser == rows.rbegin() || coarser->passing_pct <= percent + rounding) return {SizeStatus::inside, coarser->opening, 1};
  const SieveRow& finer = *(coarser - 1);
  return {SizeStatus::inside, interpolated(finer, *coarser, percent), coarser->opening / finer.opening};
}

Mass overload_limit(Opening opening, double area_m2) {
  const double mm = opening.in(unit::millimetre);
  return Mass((mm < 4.75 ? 7 : 2.5 * mm) * area_m2, unit::kilogram);
}

double sieving_area_m2(Opening diameter) {
  constexpr double pi = 3.14159265358979323846, rim_mm = 12.7;
  const double clear = std::max(diameter.in(unit::millimetre)-rim_mm, 0.5 * diameter.in(unit::millimetre)) / 1000;
  return pi / 4 * clear * clear;
}

}  // namespace prillbook
