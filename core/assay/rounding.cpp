// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/assay/rounding.h"

#include <algorithm>
#include <cmath>

namespace prillbook {
namespace {

constexpr int most_decimals = 12;

// Largest e with 10^e <= x. log10 of a power of ten is exact in practice only; the comparison settles the rest.
int decade(double x) {
  int e = static_cast<int>(std::floor(std::log10(x)));
  if (std::pow(10.0, e + 1) <= x * (1 + 1e-12)) ++e;
  return e;
}

}  // namespace

int decimals_for_uncertainty(double uncertainty) {
  const int e = decade(uncertainty);
  const bool two_digits = uncertainty / std::pow(10.0, e) < 3 * (1 - 1e-12);
  return std::min((two_digits ? 1 : 0) - e, most_decimals);
}

int decimals_for_step(double step) {
  const int e = decade(step);
  const bool exact = std::pow(10.0, e) >= step * (1 - 1e-9);
  return std::min(-(exact ? e : e + 1), most_decimals);
}

std::string rounded(double value, int decimals, DecimalMark mark) {
  if (decimals >= 0) return fixed(value, std::min(decimals, most_decimals), mark);
  std::string text = fixed(value / std::pow(10.0, -decimals), 0, mark);
  if (text != "0") text.append(static_cast<std::size_t>(-decimals), '0');
  return text;
}

namespace {

std::string six_digits(double value, DecimalMark mark) {
  constexpr int digits = 6;
  const int before = value == 0 ? 1 : int(std::floor(std::log10(std::abs(value)))) + 1;
  std::string text = rounded(value, std::clamp(digits - before, 0, most_decimals), mark);
  if (text.find_first_of(".,") == std::string::npos) return text;
  text.erase(text.find_last_not_of('0') + 1);
  if (text.back() == '.' || text.back() == ',') text.pop_back();
  return text;
}

}  // namespace

std::string written(double value, std::optional<double> half_width, std::optional<double> step, DecimalMark mark) {
  const bool has_width = half_width && *half_width > 0 && std::isfinite(*half_width);
  const bool has_step = step && *step > 0 && std::isfinite(*step);
  int decimals = most_decimals;
  if (has_width) decimals = std::min(decimals, decimals_for_uncertainty(*half_width));
  if (has_step) decimals = std::min(decimals, decimals_for_step(*step));
  if (!has_width && !has_step) {
    return six_digits(value, mark);
  }
  if (!has_width) return rounded(value, decimals, mark);
  std::string width = rounded(*half_width, decimals, mark);
  // Never "± 0": a step coarser than the half width leaves one unit of the last place.
  if (width.find_first_of("123456789") == std::string::npos) width = rounded(std::pow(10.0, -decimals), decimals, mark);
  return rounded(value, decimals, mark) + " ± " + width;
}

}  // namespace prillbook
