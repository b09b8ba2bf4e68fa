// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/findings/wording.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "core/assay/rounding.h"

namespace prillbook::findings {

std::string grade_in_words(const MeasuredGrade& grade) {
  std::optional<double> half_width;
  if (grade.lo && grade.hi) half_width = (grade.hi->in(unit::gram_per_tonne)-grade.lo->in(unit::gram_per_tonne)) / 2;
  return written(grade.g_t(), half_width);
}

std::string gap_in_words(const Gap& gap) {
  const double value = gap.value.in(unit::gram_per_tonne);
  if (!gap.lo || !gap.hi) return written(value, {});
  const double lo = gap.lo->in(unit::gram_per_tonne), hi = gap.hi->in(unit::gram_per_tonne);
  if (hi <= lo) return written(value, {});
  const int decimals = decimals_for_uncertainty((hi - lo) / 2);
  return fmt::format("{} ({} to {})", rounded(value, decimals), rounded(lo, decimals), rounded(hi, decimals));
}

std::string step_in_words(const milling::Step& step, const std::string& machine) {
  std::string name = step.kind == "dry"         ? "drying"
                     : step.kind == "crush"     ? "crushing"
                     : step.kind == "pulverise" ? "pulverising"
                     : step.kind == "blend"     ? "blending"
                     : step.kind == "split"     ? "splitting"
                     : step.kind == "screen"    ? "screening"
                                                : "compositing";
  name += fmt::format(" on {} at {}", local_date(step.done_at), local_time(step.done_at));
  return machine.empty() ? name : fmt::format("{} ({})", name, machine);
}

std::string mass_in_words(Mass mass) {
  const double rounded_g = std::round(mass.in(unit::gram)*1000) / 1000;
  const portions::MassInWords words = portions::in_words(Mass(rounded_g, unit::gram));
  return fmt::format("{} {}", words.number, words.unit);
}

std::string typed_with_unit(const readings::Reading& reading) {
  const bool bare = reading.typed.find_first_not_of("0123456789.,<>=~+- ") == std::string::npos;
  return bare ? fmt::format("{} {}", reading.typed, reading.unit) : reading.typed;
}

std::string two_digits(double value) {
  if (value == 0 || !std::isfinite(value)) return "0";
  const int decimals = std::clamp(1 - int(std::floor(std::log10(std::abs(value)))), -6, 12);
  return rounded(value, decimals);
}

}  // namespace prillbook::findings
