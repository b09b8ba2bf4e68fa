// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/preparation/crushing_order.h"

#include <algorithm>
#include <cmath>

namespace prillbook {
namespace {

Result<void> check_rules(const OrderRules& rules) {
  if (!(std::isfinite(rules.limit_pct) && rules.limit_pct > 0))
    return refusal(ErrorCode::out_of_range, "limit_pct", "the limit is above 0");
  if (!(rules.flush > Mass{}) || !std::isfinite(rules.flush.in(unit::gram)))
    return refusal(ErrorCode::out_of_range, "flush_g", "a flush has a mass above zero");
  if (!(rules.floor > Grade{})) return refusal(ErrorCode::out_of_range, "floor_g_t", "the floor is above 0");
  if (rules.most_flushes < 0) return refusal(ErrorCode::out_of_range, "most_flushes", "flushes are counted from 0");
  return {};
}

double percent_of_own(const CarryOverResult& carried, Grade own, Grade floor) {
  return std::max(0.0, 100 * (carried.carryover / std::max(own, floor)));
}

bool goes_first(const WaitingRock& rock, const OrderRules& rules) { return rock.due && *rock.due <= rules.urgent_until; }

Result<CrushingOrder> walk(const std::vector<const WaitingRock*>& waiting, const OrderRules& rules, bool with_flushes) {
  CrushingOrder order;
  order.places.reserve(waiting.size());
  Held held = rules.held;
  for (const WaitingRock* rock : waiting) {
    OrderedRock place{rock->id, 0, {}, 0, false};
    Passage passage{rock->mass, rock->grade, {}, 1};
    PRILLBOOK_ASSIGN(PassageRisk risk, pass_through(rules.holdup, held, passage));
    place.carryover_pct = percent_of_own(risk.carried, rock->grade, rules.floor);
    while (with_flushes && place.carryover_pct > rules.limit_pct && place.flushes < rules.most_flushes) {
      passage.flushes.push_back(rules.flush);
      ++place.flushes;
      PRILLBOOK_ASSIGN(risk, pass_through(rules.holdup, held, passage));
      place.carryover_pct = percent_of_own(risk.carried, rock->grade, rules.floor);
    }
    place.carryover = risk.carried.carryover;
    place.above_limit = place.carryover_pct > rules.limit_pct;
    order.flush_total += rules.flush * double(place.flushes);
    if (place.carryover > Grade{})
      order.foreign_metal += Mass(place.carryover.in(unit::gram_per_tonne) / 1e6 * rock->mass.in(unit::gram), unit::gram);
    held = risk.after;
    order.places.push_back(place);
  }
  return order;
}

}  // namespace

Result<CrushingOrder> as_given(const std::vector<WaitingRock>& waiting, const OrderRules& rules, bool with_flushes) {
  PRILLBOOK_TRY(check_rules(rules));
  std::vector<const WaitingRock*> rocks;
  rocks.reserve(waiting.size());
  for (const WaitingRock& rock : waiting) rocks.push_back(&rock);
  return walk(rocks, rules, with_flushes);
}

Result<CrushingOrder> crushing_order(const std::vector<WaitingRock>& waiting, const OrderRules& rules) {
  PRILLBOOK_TRY(check_rules(rules));
  std::vector<const WaitingRock*> arrival;
  arrival.reserve(waiting.size());
  for (const WaitingRock& rock : waiting) arrival.push_back(&rock);
  const auto urgent_end =
      std::stable_partition(arrival.begin(), arrival.end(), [&](const auto* rock) { return goes_first(*rock, rules); });
  std::vector<const WaitingRock*> rising = arrival;
  const auto poorer = [](const WaitingRock* a, const WaitingRock* b) { return a->grade < b->grade; };
  const auto rising_urgent_end = rising.begin() + (urgent_end - arrival.begin());
  std::stable_sort(rising.begin(), rising_urgent_end, poorer);
  std::stable_sort(rising_urgent_end, rising.end(), poorer);
  if (urgent_end != arrival.begin() && urgent_end != arrival.end()) {
    PRILLBOOK_ASSIGN(const CrushingOrder plain, walk(arrival, rules, false));
    PRILLBOOK_ASSIGN(const CrushingOrder sorted, walk(rising, rules, false));
    if (sorted.foreign_metal > plain.foreign_metal) rising = arrival;
  }
  return walk(rising, rules, true);
}

}  // namespace prillbook
