// SPDX-License-Identifier: GPL-3.0-or-later
// One function a verb, each in its own file calc_NAME.cpp.
#pragma once

#include "app/batch/calc.h"
#include "core/json/json_input.h"

namespace prillbook::batch {

Result<Json> calc_grade(JsonInput& input);
Result<Json> calc_metallics(JsonInput& input);
Result<Json> calc_convert(JsonInput& input);
Result<Json> calc_compare(JsonInput& input);
Result<Json> calc_moisture(JsonInput& input);
Result<Json> calc_inquart(JsonInput& input);
Result<Json> calc_fineness_by_density(JsonInput& input);
Result<Json> calc_sieve(JsonInput& input);
Result<Json> calc_charge(JsonInput& input);
Result<Json> calc_sampling(JsonInput& input);
Result<Json> calc_grains(JsonInput& input);
Result<Json> calc_mix_carryover(JsonInput& input);
Result<Json> calc_two_product(JsonInput& input);
Result<Json> calc_pairs(JsonInput& input);
Result<Json> calc_control(JsonInput& input);
Result<Json> calc_robust(JsonInput& input);

}  // namespace prillbook::batch
