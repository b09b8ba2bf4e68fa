// SPDX-License-Identifier: GPL-3.0-or-later
// Whatever numbers come in, an answer holds finite numbers only or there is a refusal with its field.
#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include <cmath>

#include "app/batch/calc.h"

namespace prillbook::batch {
namespace {

bool all_finite(const Json& value) {
  if (value.is_number_float()) return std::isfinite(value.get<double>());
  if (!value.is_structured()) return true;
  for (const auto& element : value)
    if (!all_finite(element)) return false;
  return true;
}

double odd_number() {
  return *rc::gen::element(0.0, 1.0, 0.01, 30.0, 100.0, 750.0, 1000.0, 5e-324, 1e-300, 1e-160, 1e-9, 1e9, 1e160, 1e300, 1.7e308,
                           -1.0, *rc::gen::inRange(1, 100000) / 1000.0);
}

// A plausible charge in which now and then a key is odd, so that answers and refusals both occur.
nlohmann::json odd_grade() {
  nlohmann::json input{{"portion_g", *rc::gen::element(10.0, 30.0, 1000.0)}, {"bead_mg", *rc::gen::element(0.0, 1.5, 5.0)}};
  if (*rc::gen::arbitrary<bool>()) input["bead_mg"] = nlohmann::json{1.5, *rc::gen::element(1.5, 1.6)};
  if (*rc::gen::arbitrary<bool>()) input["fineness_permil"] = *rc::gen::inRange(0, 1001);
  if (input.contains("fineness_permil")) input["fineness_method"] = *rc::gen::element("parted", "touchstone", "colour");
  if (!input.contains("fineness_permil")) input["gold_mg"] = *rc::gen::element(0.0, 0.5, 1.5);
  const std::pair<const char*, double> usual[] = {
      {"balance_step_mg", 0.01}, {"portion_step_g", 0.1}, {"slag_mg", 0.3},       {"slag_gold_mg", 0.1}, {"cupel_mg", 0.2},
      {"blank_mg", 0.4},         {"collector_mg", 1},     {"gold_loss_pct", 0.2}, {"moisture_pct", 5},   {"repeat_sd_mg", 0.01}};
  for (const auto& [key, value] : usual) {
    const int kind = *rc::gen::inRange(0, 24);
    if (kind < 6) input[key] = value;
    if (kind == 6) input[key] = odd_number();
  }
  if (*rc::gen::inRange(0, 8) == 0) input["portion_g"] = odd_number();
  if (*rc::gen::inRange(0, 8) == 0) input["bead_mg"] = nlohmann::json{odd_number(), odd_number()};
  if (*rc::gen::inRange(0, 4) == 0) input["tared"] = true;
  return input;
}

void check_verb(std::string_view name, const nlohmann::json& input) {
  const auto result = calc(name, input);
  RC_LOG() << input.dump() << (result.ok() ? result->dump() : result.error().detail);
  if (result.ok())
    RC_ASSERT(all_finite(*result));
  else
    RC_ASSERT(!result.error().field.empty());
}

RC_GTEST_PROP(OddNumbers, Grade, ()) { check_verb("grade", odd_grade()); }

RC_GTEST_PROP(OddNumbers, Compare, ()) {
  nlohmann::json input{{"pan", odd_grade()}, {"fire", odd_grade()}};
  for (const char* side : {"pan", "fire"})
    if (*rc::gen::arbitrary<bool>()) input[side][*rc::gen::element("grain_um", "u_sampling_pct")] = odd_number();
  if (*rc::gen::arbitrary<bool>()) {
    input["tail"] = odd_grade();
    input["tail"]["tail_mass_g"] = odd_number();
  }
  check_verb("compare", input);
}

// Plain sides, so that the comparison itself is reached nearly every time.
RC_GTEST_PROP(OddNumbers, CompareOfPlainSides, ()) {
  const auto side = [] {
    nlohmann::json input{{"portion_g", *rc::gen::element(10.0, 100.0, 1000.0)},
                         {"gold_mg", *rc::gen::element(0.0, 1e-300, 0.5, 5.0)}};
    input["bead_mg"] = nlohmann::json{*rc::gen::element(5.0, 6.0), *rc::gen::element(5.0, 6.0)};
    if (*rc::gen::arbitrary<bool>()) input["balance_step_mg"] = *rc::gen::element(1e-300, 0.001, 1.0, 1e160, 1e300);
    input["portion_step_g"] = *rc::gen::element(1e-9, 0.1, 5.0, 1e200);
    return input;
  };
  nlohmann::json input{{"pan", side()}, {"fire", side()}};
  for (const char* name : {"pan", "fire"})
    if (*rc::gen::inRange(0, 3) > 0) input[name]["grain_um"] = *rc::gen::element(1e-100, 1.0, 800.0, 1e100, 1e300);
  input["tail"] = side();
  input["tail"]["tail_mass_g"] = *rc::gen::element(1e-300, 5.0, 1000.0);
  check_verb("compare", input);
}

RC_GTEST_PROP(OddNumbers, SmallVerbs, ()) {
  check_verb("moisture", {{"wet_g", odd_number()}, {"dry_g", odd_number()}});
  check_verb("inquart", {{"gold_mg", odd_number()}, {"silver_mg", odd_number()}, {"ratio", odd_number()}});
  check_verb("fineness_by_density", {{"air_g", odd_number()}, {"immersed_g", odd_number()}, {"balance_step_g", odd_number()}});
  check_verb("fineness_by_density", {{"air_g", odd_number()}, {"immersed_g", odd_number()}, {"liquid_density", odd_number()}});
  check_verb(
      "metallics",
      {{"coarse_mass_g", odd_number()},
       {"coarse_metal_mg", odd_number()},
       {"fine_mass_g", odd_number()},
       {"fine",
        {{{"portion_g", odd_number()}, {"metal_mg", odd_number()}}, {{"portion_g", odd_number()}, {"metal_mg", odd_number()}}}}});
}

}  // namespace
}  // namespace prillbook::batch
