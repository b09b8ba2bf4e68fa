// SPDX-License-Identifier: GPL-3.0-or-later
#include <cmath>

#include "tests/slips/dice.h"
#include "tests/slips/week.h"

namespace prillbook::slips {
namespace {

double to_five_grams(double kg) { return std::round(kg * 200) / 200; }

Json in_kg(double kg) { return typed(kg, 3, "kg"); }

void weigh_into_crusher(Json& sample, double kg) {
  Json& crushing = sample["steps"][0];
  const double left = number_of(crushing["mass_out"]) / number_of(crushing["mass_in"]);
  crushing["mass_in"] = in_kg(kg);
  crushing["mass_out"] = in_kg(to_five_grams(kg * left));
}

void came_wet(Json& sample, Dice& dice, bool moisture_written) {
  const double wet = number_of(sample["mass_received"]), dry = to_five_grams(wet * (1 - dice.even(0.01, 0.09)));
  sample["condition"] = "wet";
  weigh_into_crusher(sample, dry);
  const Json drying = {
      {"kind", "dry"}, {"mass_in", in_kg(wet)}, {"mass_out", in_kg(dry)}, {"done_at", moment(4, 10, 45)}, {"done_by", "TB"}};
  sample["steps"].insert(sample["steps"].begin(), drying);
  if (moisture_written) sample["moisture"] = typed(100 * (wet - dry) / wet, 1, "%");
}

void waited_in_the_air(Json& sample, Dice& dice) {
  weigh_into_crusher(sample, to_five_grams(number_of(sample["mass_received"]) * (1 - dice.even(0, 0.008))));
}

void weighed_by_itself(Json& sample, Dice& dice) {
  sample["gross"] = in_kg(to_five_grams(number_of(sample["gross"]) + dice.even(-0.007, 0.007)));
}

// The balance is said to repeat within 0.002 mg.
void scatter(Json& portion, Dice& dice) {
  for (const char* test : {"charge", "pan_test"})
    if (portion.contains(test))
      for (Json& one : portion[test]["bead"]["weighings"])
        one["mass"] = typed(number_of(one["mass"]) + std::round(dice.normal(0, 2)) / 1000, 3, "mg");
  if (portion.contains("portions"))
    for (Json& part : portion["portions"]) scatter(part, dice);
}

void milled_before_the_pan(Json& panned, Dice& dice) {
  const double top_um = std::round(dice.even(200, 700) / 10) * 10;
  panned["steps"] = Json::array({{{"kind", "pulverise"},
                                  {"machine", "disc mill"},
                                  {"mass_in", "1000.00 g"},
                                  {"mass_out", "999.00 g"},
                                  {"top_size", typed(top_um, 0, "um")},
                                  {"done_at", moment(4, 13, 40)},
                                  {"done_by", "TB"}}});
  panned["pan_test"]["grind"] = typed(top_um * dice.even(0.4, 1), 0, "um");
}

}  // namespace

Json harder_week(std::uint64_t seed) {
  Json week = clean_week(seed);
  Dice dice(seed + 0x5EED);
  came_wet(week.at(at::good), dice, seed % 2 == 0);
  waited_in_the_air(week.at(at::poor), dice);
  weighed_by_itself(week.at(at::good), dice);
  weighed_by_itself(week.at(at::poor), dice);
  for (Json& portion : week.at(at::good)["portions"]) scatter(portion, dice);
  milled_before_the_pan(week.at(at::pan), dice);
  return week;
}

}  // namespace prillbook::slips
