// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/summary/draw_words.h"

#include <fmt/format.h>

#include "core/assay/rounding.h"
#include "core/summary/figure.h"

namespace prillbook::summary {
namespace {

std::string interval_words(const Drawn& drawn, double scale, std::string_view unit, DecimalMark mark) {
  const auto scaled = [scale](std::optional<double> value) { return value ? std::optional(*value * scale) : value; };
  if (!drawn.median) return "none";
  if (!drawn.lo || !drawn.hi)
    return fmt::format("{}; an end can not be told", with_unit(figure(*drawn.median * scale, {}, {}, unit, {}, mark)));
  return with_unit(figure(*drawn.median * scale, scaled(drawn.lo), scaled(drawn.hi), unit, {}, mark));
}

std::string agreement_words(const char* what, const std::optional<Agreement>& agreement, double scale, std::string_view unit,
                            DecimalMark mark) {
  if (!agreement) return fmt::format("The first order gives no whole interval of the {} to compare with.", what);
  if (agreement->holds())
    return fmt::format("For the {} the first order holds: both ends agree to half of its second figure.", what);
  const double off = std::max(agreement->low_off, agreement->high_off) * scale;
  return fmt::format("For the {} the first order is off by up to {}: take the draws.", what,
                     with_unit(figure(off, {}, {}, unit, {}, mark)));
}

}  // namespace

std::vector<std::string> draw_words(const DrawnComparison& drawn, DecimalMark mark) {
  return {fmt::format("Gap {}; recovery {}.", interval_words(drawn.gap, 1, "g/t", mark),
                      interval_words(drawn.recovery, 100, "%", mark)),
          fmt::format("Fire found more than the pan caught in {} % of the draws.",
                      written(100 * drawn.left_behind_share, {}, 0.1, mark)),
          agreement_words("gap", drawn.gap_agreement, 1, "g/t", mark),
          agreement_words("recovery", drawn.recovery_agreement, 100, "%", mark),
          fmt::format("{} draws with seed {}: the same seed gives the same figures.", drawn.draws, drawn.seed)};
}

}  // namespace prillbook::summary
