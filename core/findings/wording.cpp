// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/findings/wording.h"

#include <fmt/format.h>

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

}  // namespace prillbook::findings
