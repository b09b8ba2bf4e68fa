// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/weighing/tare.h"

#include <fmt/format.h>

#include <algorithm>

#include "core/units/units.h"

namespace prillbook::weighing {
namespace {

// Decimals of a figure once it is written in mg.
int milligram_decimals(const readings::Reading& reading) {
  constexpr int of_another_unit = 4, most = 6;
  const std::size_t mark = reading.typed.find_first_of(".,");
  int count = 0;
  if (mark != std::string::npos)
    for (std::size_t i = mark + 1; i < reading.typed.size() && reading.typed[i] >= '0' && reading.typed[i] <= '9'; ++i) ++count;
  const int shift = reading.unit == "mg" ? 0 : reading.unit == "g" ? 3 : reading.unit == "kg" ? 6 : -of_another_unit;
  return std::clamp(count - shift, 0, most);
}

}  // namespace

Result<readings::Reading> net_of(const readings::Reading& gross, const readings::Reading& tare) {
  for (const readings::Reading* one : {&gross, &tare})
    if (one->state != readings::State::measured)
      return Error{ErrorCode::out_of_range, one == &gross ? "weighing.gross" : "weighing.tare", "is no figure that was read off",
                   {one->typed}};
  const Mass net = gross.mass() - tare.mass();
  if (!(net > Mass()))
    return Error{ErrorCode::inconsistent,
                 "weighing.tare",
                 fmt::format("the empty cup ({}) weighs as much as the full one ({})", tare.typed, gross.typed),
                 {tare.typed, gross.typed}};
  const std::string number =
      fixed(net.in(unit::milligram), std::max(milligram_decimals(gross), milligram_decimals(tare)), gross.mark);
  PRILLBOOK_ASSIGN(readings::Reading reading, readings::parse(number + " mg", {Measure::mass, "mg", gross.mark, true}));
  reading.balance = gross.balance;
  reading.step_g = gross.step_g;
  reading.answer = net_is_derived;
  return reading;
}

}  // namespace prillbook::weighing
