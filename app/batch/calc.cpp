// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/batch/calc.h"

#include <fmt/format.h>

#include "app/batch/calc_verbs.h"

namespace prillbook::batch {
namespace {

struct Verb {
  std::string_view name;
  Result<Json> (*run)(JsonInput& input);
};

// Kept one a line: verbs are added here and declared in calc_verbs.h.
constexpr Verb verbs[] = {
    {"grade", calc_grade},
    {"metallics", calc_metallics},
    {"convert", calc_convert},
    {"compare", calc_compare},
    {"moisture", calc_moisture},
    {"inquart", calc_inquart},
    {"fineness_by_density", calc_fineness_by_density},
    {"sieve", calc_sieve},
    {"charge", calc_charge},
    {"sampling", calc_sampling},
    {"grains", calc_grains},
    {"mix_carryover", calc_mix_carryover},
    {"two_product", calc_two_product},
    {"pairs", calc_pairs},
    {"control", calc_control},
    {"robust", calc_robust},
};

}  // namespace

Result<Json> calc(std::string_view name, const nlohmann::json& input) {
  for (const Verb& verb : verbs) {
    if (verb.name != name) continue;
    PRILLBOOK_ASSIGN(JsonInput object, JsonInput::object(input));
    return verb.run(object);
  }
  return Error{ErrorCode::unknown_verb, "", fmt::format("there is no computation named '{}'", name), {std::string(name)}};
}

std::vector<std::string_view> calc_names() {
  std::vector<std::string_view> names;
  for (const Verb& verb : verbs) names.push_back(verb.name);
  return names;
}

}  // namespace prillbook::batch
