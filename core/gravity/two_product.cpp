// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/gravity/two_product.h"

#include <cmath>

namespace prillbook {
namespace {}  // namespace

Result<TwoProduct> two_product(Grade feed, Grade concentrate, Grade tail) {
  const auto finite = [](Grade grade) { return std::isfinite(grade.in(unit::gram_per_tonne)); };
  if (!finite(feed) || feed <= Grade{}) return refusal(ErrorCode::out_of_range, "feed_g_t", "the feed must hold metal");
  if (!finite(concentrate) || concentrate <= Grade{})
    return refusal(ErrorCode::out_of_range, "concentrate_g_t", "the concentrate must hold metal");
  if (!finite(tail) || tail < Grade{}) return refusal(ErrorCode::out_of_range, "tail_g_t", "a grade is not below 0");
  if (concentrate <= tail)
    return refusal(ErrorCode::inconsistent, "concentrate_g_t", "the concentrate must be richer than the tail");
  if (feed < tail || feed > concentrate)
    return refusal(ErrorCode::inconsistent, "feed_g_t", "the feed must lie between tail and concentrate");
  const double yield = (feed - tail) / (concentrate - tail);
  const double enrichment = concentrate / feed;
  return TwoProduct{100 * yield * enrichment, 100 * yield, enrichment};
}

}  // namespace prillbook
