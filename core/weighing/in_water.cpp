// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/weighing/in_water.h"

#include <algorithm>

#include "core/history/fields.h"
#include "core/lab/lab.h"
#include "core/units/units.h"
#include "core/weighing/bead.h"

namespace prillbook::weighing {
namespace {

using readings::Figure;
using readings::Reading;

// The two readings as that balance showed them.
Result<InWater> on_its_balance(store::Connection& connection, const InWater& weighed) {
  InWater read = weighed;
  for (auto [reading, name] : {std::pair(&read.in_air, "bead.in_air"), std::pair(&read.in_water, "bead.in_water")}) {
    if (reading->state != readings::State::measured)
      return Error{ErrorCode::out_of_range, name, "is no figure that was read off", {reading->typed}};
    PRILLBOOK_ASSIGN(*reading, lab::on_balance(connection, *reading, weighed.balance));
  }
  return read;
}

Error under_its_field(Error error) {
  error.field = error.field == "air_g" ? "bead.in_air" : "bead.in_water";
  return error;
}

Result<DensityFineness> of_readings(const InWater& read) {
  if (!read.in_air.step_g || !(*read.in_air.step_g > 0))
    return refusal(ErrorCode::missing_key, "weighing.balance_id", "the step of the balance is needed: it sets the uncertainty");
  DensityInput input;
  input.air = read.in_air.mass();
  input.immersed = read.in_water.mass();
  input.balance_step = Mass(*read.in_air.step_g, unit::gram);
  auto found = fineness_by_density(input);
  if (!found) return under_its_field(found.error());
  return found;
}

Result<Figure> worked_out(Fineness value, int places, DecimalMark mark) {
  PRILLBOOK_ASSIGN(Reading reading,
                   readings::parse(fixed(value.in(unit::permil), places, mark), {Measure::fineness, "‰", mark, true}));
  reading.answer = fineness_is_derived;
  return Figure(std::move(reading));
}

}  // namespace

Result<DensityFineness> fineness_in_water(store::Connection& connection, const InWater& weighed) {
  PRILLBOOK_ASSIGN(const InWater read, on_its_balance(connection, weighed));
  return of_readings(read);
}

Result<void> weigh_in_water(history::ChangeSet& set, BeadId id, const InWater& weighed) {
  namespace f = history::fields::bead;
  PRILLBOOK_ASSIGN(const InWater read, on_its_balance(set.connection(), weighed));
  PRILLBOOK_ASSIGN(const DensityFineness found, of_readings(read));
  constexpr int places = 1;
  PRILLBOOK_ASSIGN(const Figure fineness, worked_out(found.fineness, places, read.in_air.mark));
  PRILLBOOK_ASSIGN(const Figure u, worked_out(found.u.value_or(Fineness()), places, read.in_air.mark));
  PRILLBOOK_TRY(set_fineness(set, id, "density", fineness, u));
  PRILLBOOK_TRY(set.set(f::in_air, id.value, readings::cell_of(Figure(read.in_air))));
  return set.set(f::in_water, id.value, readings::cell_of(Figure(read.in_water)));
}

Result<void> weigh_in_water(history::Journal& journal, BeadId id, const InWater& weighed) {
  return journal.record("weigh in water", [&](history::ChangeSet& set) { return weigh_in_water(set, id, weighed); });
}

}  // namespace prillbook::weighing
