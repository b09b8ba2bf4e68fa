// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/preparation/gy.h"

#include <fmt/format.h>

#include <cmath>

namespace prillbook {
namespace {

constexpr double per_unit = 1e6;  // grams per tonne in a mass fraction of 1

Result<void> check(const GyInput& in) {
  const auto above_zero = [](double value) { return std::isfinite(value) && value > 0; };
  const auto out = [](const char* field) { return refusal(ErrorCode::out_of_range, field, "the figure must be above 0"); };
  if (!above_zero(in.top_size.in(unit::micrometre))) return out("top_size_um");
  if (!above_zero(in.liberation.in(unit::micrometre))) return out("liberation_um");
  if (!above_zero(in.grade.in(unit::gram_per_tonne))) return out("grade_g_t");
  if (!above_zero(in.mass.in(unit::gram))) return out("mass_g");
  if (!above_zero(in.shape)) return out("shape");
  if (!above_zero(in.range_factor)) return out("range_factor");
  if (!above_zero(in.gold_density.in(unit::gram_per_cubic_centimetre))) return out("gold_density");
  if (!(in.exponent >= 0 && in.exponent <= 3))
    return refusal(ErrorCode::out_of_range, "exponent", "the exponent lies from 0 to 3");
  if (in.target && !above_zero(in.target->in(unit::percent))) return out("target_pct");
  if (in.lot && in.mass > *in.lot) return refusal(ErrorCode::inconsistent, "lot_g", "the portion is heavier than its lot");
  return {};
}

// Variance × mass for a portion of a lot without end, grams.
double constant_g(const GyInput& in, bool gold_grain_governs) {
  const double d_cm = (gold_grain_governs ? in.liberation : in.top_size).in(unit::centimetre);
  const double mineral = in.gold_density.in(unit::gram_per_cubic_centimetre)*per_unit / in.grade.in(unit::gram_per_tonne);
  const double liberation = gold_grain_governs ? 1 : std::pow(in.liberation / in.top_size, 3 - in.exponent);
  return in.shape * in.range_factor * mineral * liberation * d_cm * d_cm * d_cm;
}

std::string form_text(const GyInput& in, bool gold_grain_governs) {
  const std::string lot = in.lot ? "(1/M - 1/L)" : "/M";
  if (gold_grain_governs)
    return fmt::format(
        "Gy: s² = f g c l d³ {}, exponent {}; top size not above the liberation size, so the gold grain governs: "
        "d = liberation size, l = 1",
        lot, in.exponent);
  return fmt::format("Gy: s² = f g c l d³ {}, l = (liberation/top size)^(3 - {}), exponent {}", lot, in.exponent, in.exponent);
}

}  // namespace

Result<GyResult> gy_error(const GyInput& in) {
  PRILLBOOK_TRY(check(in));
  GyResult result;
  result.gold_grain_governs = in.top_size <= in.liberation;
  result.form = form_text(in, result.gold_grain_governs);
  const double k = constant_g(in, result.gold_grain_governs);
  const double per_lot = in.lot ? 1 / in.lot->in(unit::gram) : 0;
  const double variance = k * (1 / in.mass.in(unit::gram)-per_lot);
  if (!std::isfinite(variance)) return refusal(ErrorCode::not_finite, "mass_g", "the variance is not finite");
  result.relative_sd_pct = 100 * std::sqrt(std::max(variance, 0.0));
  if (in.target) {
    const double wanted = in.target->in(unit::percent) / 100;
    result.mass_for_target = Mass(1 / (wanted * wanted / k + per_lot), unit::gram);
  }
  return result;
}

Result<IngamellsResult> ingamells(const std::vector<Mass>& masses, const std::vector<double>& values,
                                  std::optional<Share> target) {
  if (masses.size() != values.size()) return refusal(ErrorCode::inconsistent, "values", "as many values as masses are needed");
  if (values.size() < 2) return refusal(ErrorCode::too_small, "values", "at least two repeats are needed");
  const double n = static_cast<double>(values.size());
  IngamellsResult result;
  double mass_g = 0;
  for (std::size_t i = 0; i < values.size(); ++i) {
    result.mean += values[i] / n;
    mass_g += masses[i].in(unit::gram) / n;
  }
  if (!(result.mean > 0)) return refusal(ErrorCode::out_of_range, "values", "the mean of the values must be above 0");
  double squares = 0;
  for (const double value : values) squares += (value - result.mean) * (value - result.mean);
  result.sd = std::sqrt(squares / (n - 1));
  const double relative_pct = 100 * result.sd / result.mean;
  result.constant_g = mass_g * relative_pct * relative_pct;
  if (!std::isfinite(result.constant_g)) return refusal(ErrorCode::not_finite, "values", "the constant is not finite");
  if (target) {
    const double wanted_pct = target->in(unit::percent);
    result.mass_for_target = Mass(result.constant_g / (wanted_pct * wanted_pct), unit::gram);
  }
  return result;
}

}  // namespace prillbook
