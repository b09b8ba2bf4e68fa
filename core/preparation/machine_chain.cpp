// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/preparation/machine_chain.h"

#include <cmath>

namespace prillbook {

Held brushed(const Held& held, double left_share) { return {held.mass * left_share, held.grade}; }

Result<Held> flushed(Mass holdup, const Held& held, Mass flush) {
  PRILLBOOK_ASSIGN(const CarryOverResult mixed, mix_carryover({flush, held.grade, Grade{}, held.mass, {}}));
  return Held{holdup, mixed.apparent};
}

Result<PassageRisk> pass_through(Mass holdup, const Held& held, const Passage& passage) {
  const double left = passage.left_share;
  if (!(left >= 0 && left <= 1)) return refusal(ErrorCode::out_of_range, "left_share", "a share lies from 0 to 1");
  const double holdup_g = holdup.in(unit::gram), held_g = held.mass.in(unit::gram);
  if (!std::isfinite(holdup_g) || holdup_g < 0 || !std::isfinite(held_g) || held_g < 0)
    return refusal(ErrorCode::out_of_range, "holdup_g", "the hold-up is not below 0");
  Held now = brushed(held, left);
  for (const Mass flush : passage.flushes) {
    PRILLBOOK_ASSIGN(now, flushed(holdup, now, flush));
  }
  PassageRisk risk;
  PRILLBOOK_ASSIGN(risk.carried, mix_carryover({passage.mass, now.grade, passage.grade, now.mass, {}}));
  // What comes out is the mixture; of the metal that was held, the share that the sample's mass has in it goes along.
  const double goes_g = now.mass.in(unit::gram) * (passage.mass / (passage.mass + now.mass));
  risk.foreign = Mass(goes_g * now.grade.in(unit::gram_per_tonne) / 1e6, unit::gram);
  risk.after = {holdup, risk.carried.apparent};
  return risk;
}

Result<std::vector<PassageRisk>> pass_all(Mass holdup, Held held, const std::vector<Passage>& passages) {
  std::vector<PassageRisk> risks;
  risks.reserve(passages.size());
  for (const Passage& passage : passages) {
    PRILLBOOK_ASSIGN(const PassageRisk risk, pass_through(holdup, held, passage));
    held = risk.after;
    risks.push_back(risk);
  }
  return risks;
}

}  // namespace prillbook
