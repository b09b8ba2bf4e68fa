// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/preparation/holdup.h"

#include <algorithm>
#include <cmath>

namespace prillbook {

Result<HoldUp> holdup_of(const FlushAssay& in) {
  const double before = in.before.in(unit::gram_per_tonne), flushed = in.flushed.in(unit::gram_per_tonne);
  const double barren = in.barren.in(unit::gram_per_tonne), flush_g = in.flush.in(unit::gram);
  const double u_before = in.u_before.in(unit::gram_per_tonne), u_flushed = in.u_flushed.in(unit::gram_per_tonne);
  const double u_barren = in.u_barren.in(unit::gram_per_tonne);
  for (const double value : {before, flushed, barren, flush_g, u_before, u_flushed, u_barren})
    if (!std::isfinite(value) || value < 0)
      return refusal(ErrorCode::out_of_range, "flush", "a figure of the flush is out of range");
  if (flush_g == 0) return refusal(ErrorCode::out_of_range, "flush", "a flush has a mass above zero");
  if (flushed <= barren || flushed >= before)
    return refusal(ErrorCode::inconsistent, "flush",
                   "the flush must be richer than barren rock and poorer than what went before");
  const double over = before - flushed, gained = flushed - barren;
  const double holdup_g = gained * flush_g / over;
  const double by_flushed = flush_g * (before - barren) / (over * over), by_barren = flush_g / over;
  const double by_before = holdup_g / over;
  const double u_g = std::hypot(by_flushed * u_flushed, by_barren * u_barren, by_before * u_before);
  if (!std::isfinite(holdup_g) || !std::isfinite(u_g))
    return refusal(ErrorCode::not_finite, "flush", "the hold-up can't be expressed");
  return HoldUp{Mass(holdup_g, unit::gram), Mass(u_g, unit::gram)};
}

std::optional<HoldUp> mean_holdup(const std::vector<HoldUp>& flushes) {
  if (flushes.empty()) return std::nullopt;
  const double n = double(flushes.size());
  double mean = 0, carried = 0, scatter = 0;
  for (const HoldUp& one : flushes) {
    mean += one.mass.in(unit::gram) / n;
    const double u = one.u.in(unit::gram) / n;
    carried += u * u;
  }
  for (const HoldUp& one : flushes) scatter += (one.mass.in(unit::gram)-mean) * (one.mass.in(unit::gram)-mean);
  if (flushes.size() > 1) scatter /= (n - 1) * n;
  return HoldUp{Mass(mean, unit::gram), Mass(std::sqrt(std::max(carried, scatter)), unit::gram)};
}

}  // namespace prillbook
