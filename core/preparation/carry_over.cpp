// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/preparation/carry_over.h"

#include <fmt/format.h>

#include <cmath>

namespace prillbook {
namespace {

Error out_of_range(std::string field) { return {ErrorCode::out_of_range, std::move(field), "the figure is out of range", {}}; }

bool at_least_zero(double value) { return std::isfinite(value) && value >= 0; }

Result<void> check(const CarryOverInput& in) {
  if (!at_least_zero(in.sample.in(unit::gram)) || in.sample == Mass{}) return out_of_range("sample_g");
  if (!at_least_zero(in.previous.in(unit::gram_per_tonne))) return out_of_range("previous_g_t");
  if (!at_least_zero(in.own.in(unit::gram_per_tonne))) return out_of_range("own_g_t");
  if (!at_least_zero(in.holdup.in(unit::gram))) return out_of_range("holdup_g");
  for (std::size_t i = 0; i < in.flushes.size(); ++i)
    if (!at_least_zero(in.flushes[i].in(unit::gram)) || in.flushes[i] == Mass{})
      return out_of_range(fmt::format("flushes[{}]", i));
  return {};
}

}  // namespace

Result<CarryOverResult> mix_carryover(const CarryOverInput& in) {
  PRILLBOOK_TRY(check(in));
  Grade held = in.previous;
  for (const Mass flush : in.flushes) held = held * (in.holdup / (in.holdup + flush));
  const Mass mixed = in.sample + in.holdup;
  const double foreign_share = in.holdup / mixed;
  const Grade foreign = held * foreign_share;
  CarryOverResult result;
  result.apparent = in.own * (in.sample / mixed) + foreign;
  result.carryover = (held - in.own) * foreign_share;
  if (result.apparent > Grade{}) result.carryover_pct = 100 * (foreign / result.apparent);
  return result;
}

}  // namespace prillbook
