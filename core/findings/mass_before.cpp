// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/findings/mass_before.h"

#include <cmath>

#include "core/units/units.h"

namespace prillbook::findings {
namespace {

double step_variance(const readings::Reading& mass) {
  const double step = milling::smallest_change(mass).in(unit::gram);
  return step * step / 12;
}

void weigh_in(MassBefore& before, const readings::Reading& mass, double sign) {
  before.mass += mass.mass() * sign;
  before.u2_g2 += step_variance(mass);
}

}  // namespace

Mass MassBefore::u_against(const readings::Reading& weighed) const {
  return Mass(std::sqrt(u2_g2 + step_variance(weighed)), unit::gram);
}

std::optional<MassBefore> mass_before(const results::SampleRecord& record, const milling::Step& step) {
  const portions::Portion* held = record.portion(step.portion);
  const readings::Figure& had = step.portion ? (held ? held->mass : step.mass_in) : record.sample.mass_received;
  if (!had) return std::nullopt;
  MassBefore before;
  weigh_in(before, *had, 1);
  for (const portions::Portion& portion : record.portions)
    if (portion.parent == step.portion && portion.step != step.id && portion.mass && portion.cut_at &&
        portion.cut_at->utc_ms < step.done_at.utc_ms)
      weigh_in(before, *portion.mass, -1);
  for (const milling::Step& other : record.steps) {
    if (other.portion != step.portion || other.done_at.utc_ms >= step.done_at.utc_ms || !other.mass_in || !other.mass_out)
      continue;
    weigh_in(before, *other.mass_in, -1);
    weigh_in(before, *other.mass_out, 1);
  }
  return before;
}

}  // namespace prillbook::findings
