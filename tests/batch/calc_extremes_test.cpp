// SPDX-License-Identifier: GPL-3.0-or-later
// Figures at the edge of a double: a verb answers with finite numbers or refuses by a code of the contract.
#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include <cmath>

#include "tests/batch/support.h"

namespace prillbook::batch {
namespace {

struct Template {
  const char* verb;
  const char* input;
};

// Every number of these is replaced by a drawn one.
constexpr Template templates[] = {
    {"sieve",
     R"({"portion_g": 1, "pan_g": 1, "step_g": 1, "cuts": [{"opening_um": 1, "retained_g": 1}, {"opening_um": 2, "retained_g": 1}]})"},
    {"charge",
     R"({"ore_g": 1, "ore_kind": "mixed", "button_target_g": 1, "silica_pct": 1, "sulphides": [{"mineral": "pyrite", "pct": 1}]})"},
    {"charge",
     R"({"ore_g": 1, "reducing_power_g_per_g": 1, "button_target_g": 1, "litharge_g": 1, "flour_power": 1, "nitre_power": 1})"},
    {"sampling",
     R"({"top_size_um": 1, "liberation_um": 1, "grade_g_t": 1, "mass_g": 1, "target_pct": 1, "lot_g": 1, "exponent": 1})"},
    {"sampling", R"({"masses_g": [1, 1, 1], "values": [1, 1, 1], "target_pct": 1})"},
    {"grains", R"({"grade_g_t": 1, "mass_g": 1, "grain_um": 1, "flatness": 1, "gold_density": 1})"},
    {"mix_carryover", R"({"sample_g": 1, "previous_g_t": 1, "own_g_t": 1, "holdup_g": 1, "flushes": [1, 1]})"},
    {"two_product", R"({"feed_g_t": 1, "concentrate_g_t": 1, "tail_g_t": 1})"},
    {"pairs", R"({"pairs": [[1, 1], [1, 1]]})"},
    {"control", R"({"values": [1, 1, 1, 1, 1], "target": 1, "sd": 1})"},
    {"robust", R"({"values": [1, 1, 1, 1, 1], "k": 1})"},
};

void redraw(nlohmann::json& value) {
  if (value.is_number())
    value =
        *rc::gen::element(0.0, 1.0, -1.0, 3.0, 50.0, 100.0, 1e-3, 1e-12, 1e12, 5e-324, 2.3e-308, 1e-160, 1e160, 1e308, -1e308);
  if (value.is_structured())
    for (auto& item : value) redraw(item);
}

void expect_numbers(const Json& value) {
  RC_ASSERT(!value.is_null());
  if (value.is_number_float()) RC_ASSERT(std::isfinite(value.get<double>()));
  if (value.is_structured())
    for (const auto& item : value) expect_numbers(item);
}

RC_GTEST_PROP(CalcExtremes, AnswerOrRefuse, ()) {
  for (const Template& one : templates) {
    nlohmann::json input = *parse_json(one.input);
    redraw(input);
    RC_LOG() << one.verb << " " << input.dump() << "\n";
    const auto result = calc(one.verb, input);
    if (result.ok()) {
      expect_numbers(*result);
    } else {
      RC_ASSERT(exit_status(result.error().code) == 1);
      RC_ASSERT(!result.error().field.empty());
    }
  }
}

}  // namespace
}  // namespace prillbook::batch
