// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/batch/calc_verbs.h"
#include "app/batch/output.h"
#include "core/fire/charge.h"

namespace prillbook::batch {
namespace {

constexpr Domain reducing_powers{-3, 35};

Result<std::optional<Mass>> optional_mass(JsonInput& input, std::string_view key) {
  PRILLBOOK_ASSIGN(const auto grams, input.optional_number(key, not_negative));
  return grams ? std::optional(Mass(*grams, unit::gram)) : std::nullopt;
}

Result<std::vector<SulphideShare>> read_sulphides(JsonInput& input) {
  std::vector<SulphideShare> shares;
  if (!input.has("sulphides")) return shares;
  PRILLBOOK_ASSIGN(std::vector<JsonInput> items, input.children("sulphides"));
  for (JsonInput& item : items) {
    PRILLBOOK_ASSIGN(std::string mineral, item.text("mineral"));
    PRILLBOOK_ASSIGN(const double pct, item.number("pct", percentage));
    PRILLBOOK_TRY(item.finish());
    shares.push_back({std::move(mineral), Share(pct, unit::percent)});
  }
  return shares;
}

Result<ChargeInput> read(JsonInput& input) {
  ChargeInput charge;
  PRILLBOOK_ASSIGN(const double ore, input.number("ore_g", positive));
  PRILLBOOK_ASSIGN(const auto kind, input.optional_text("ore_kind"));
  PRILLBOOK_ASSIGN(charge.reducing_power, input.optional_number("reducing_power_g_per_g", reducing_powers));
  PRILLBOOK_ASSIGN(const double target, input.number("button_target_g", positive));
  PRILLBOOK_ASSIGN(const auto silica, input.optional_number("silica_pct", percentage));
  PRILLBOOK_ASSIGN(charge.sulphides, read_sulphides(input));
  PRILLBOOK_ASSIGN(charge.litharge, optional_mass(input, "litharge_g"));
  PRILLBOOK_ASSIGN(charge.soda_ash, optional_mass(input, "soda_ash_g"));
  PRILLBOOK_ASSIGN(charge.flour_power, input.number_or("flour_power", flour_practice, positive));
  PRILLBOOK_ASSIGN(charge.nitre_power, input.number_or("nitre_power", nitre_practice, positive));
  PRILLBOOK_TRY(input.finish());
  charge.ore = Mass(ore, unit::gram);
  charge.button_target = Mass(target, unit::gram);
  if (silica) charge.silica = Share(*silica, unit::percent);
  if (kind) charge.kind = find_ore_kind(*kind);
  if (kind && !charge.kind) return input.error(ErrorCode::out_of_range, "ore_kind", "'" + *kind + "' is no kind of ore");
  return charge;
}

}  // namespace

Result<Json> calc_charge(JsonInput& input) {
  PRILLBOOK_ASSIGN(const ChargeInput wanted, read(input));
  PRILLBOOK_ASSIGN(const Charge charge, design_charge(wanted));
  Json output{{"litharge_g", charge.litharge.in(unit::gram)},
              {"soda_ash_g", charge.soda_ash.in(unit::gram)},
              {"borax_glass_g", charge.borax_glass.in(unit::gram)},
              {"silica_g", charge.silica.in(unit::gram)}};
  if (charge.flour) output["flour_g"] = charge.flour->in(unit::gram);
  if (charge.nitre) output["nitre_g"] = charge.nitre->in(unit::gram);
  output["button_expected_g"] = charge.button_expected.in(unit::gram);
  output["button_theory_g"] = charge.button_theory.in(unit::gram);
  if (charge.silicate_degree) output["silicate_degree"] = *charge.silicate_degree;
  output["warnings"] = Json::array();
  for (const ChargeWarning warning : charge.warnings) output["warnings"].push_back(contract_name(warning));
  return all_finite(std::move(output));
}

}  // namespace prillbook::batch
