// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/fire/charge.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <set>

#include "core/fire/silicate.h"

namespace prillbook {
namespace {

constexpr double rounding = 1e-9;

// What the rules of a kind of ore ask for. Sources beside each figure; (cp) is common practice without a source.
struct Recipe {
  double litharge_per_ore;
  double soda_per_ore;  // least; carbonate = 0.63 × printed bicarbonate, BER p. 137
  double borax_per_ore;
  double silicate_degree;  // silica is added up to this degree
};

constexpr double soda_per_silica = 1.26;         // 2 parts bicarbonate to 1 quartz, BER p. 93 and p. 138
constexpr double least_flux_litharge = 1.0 / 3;  // of the ore (cp)

Recipe recipe_for(std::optional<OreKind> kind) {
  if (!kind) return {2, 0.45, 0.25, 1};  // 2 parts lead flux to 1 ore, BER p. 92
  switch (*kind) {
    case OreKind::siliceous:
      return {1.5, 0.45, 0.25, 1};                  // 75 litharge to 50 ore, BER p. 138; borax 5 to 20, 25 to 100, p. 90, p. 140
    case OreKind::oxide: return {2, 0.45, 0.6, 1};  // litharge 1 to 3, soda 0.24 to 0.75, borax 0.5 to 0.75: BER p. 91, 116, 138
    case OreKind::sulphide: return {4, 0.63, 0.25, 1};    // 80 lead flux to 20 ore, BER p. 95-96; 20 soda, 5 borax, p. 92
    case OreKind::carbonate: return {2, 0.45, 0.5, 1.5};  // more borax and silica (cp)
    case OreKind::mixed: return {2, 0.63, 0.4, 1};        // between the others (cp)
  }
  return {2, 0.45, 0.25, 1};
}

// An ore of unknown kind that reduces as strongly as galena is fluxed as a sulphide.
std::optional<OreKind> kind_for_flux(const ChargeInput& in) {
  constexpr double galena = 3;  // BER p. 95
  return !in.kind && *in.reducing_power > galena ? OreKind::sulphide : in.kind;
}

// The ore taken apart into what the furnace sees, grams.
struct OreParts {
  Mass silica, ferric_oxide, limestone;
  double sulphide_base_oxygen = 0;  // mol
  Mass own_lead;                    // lead the ore itself brings into the button
  Mass lead_practice, lead_theory;  // reduced by the ore; below 0: burnt
  bool assumed = false;
};

Result<void> check_figures(const ChargeInput& in) {
  const auto out = [](const char* field) { return refusal(ErrorCode::out_of_range, field, "the figure is out of range"); };
  const auto above_zero = [](double value) { return std::isfinite(value) && value > 0; };
  const auto at_least_zero = [](double value) { return std::isfinite(value) && value >= 0; };
  if (!above_zero(in.ore.in(unit::gram))) return out("ore_g");
  if (!above_zero(in.button_target.in(unit::gram))) return out("button_target_g");
  if (in.reducing_power && !(*in.reducing_power >= -3 && *in.reducing_power <= 35)) return out("reducing_power_g_per_g");
  if (in.silica && !(at_least_zero(in.silica->in(unit::percent)) && in.silica->in(unit::percent) <= 100))
    return out("silica_pct");
  if (in.litharge && !at_least_zero(in.litharge->in(unit::gram))) return out("litharge_g");
  if (in.cupel && !above_zero(in.cupel->in(unit::gram))) return out("cupel");
  if (in.soda_ash && !at_least_zero(in.soda_ash->in(unit::gram))) return out("soda_ash_g");
  if (!above_zero(in.flour_power)) return out("flour_power");
  if (!above_zero(in.nitre_power)) return out("nitre_power");
  return {};
}

Result<void> check_minerals(const ChargeInput& in) {
  double sum = in.silica ? in.silica->in(unit::percent) : 0;
  std::set<std::string_view> seen;
  for (std::size_t i = 0; i < in.sulphides.size(); ++i) {
    const SulphideShare& one = in.sulphides[i];
    const Sulphide* mineral = find_sulphide(one.mineral);
    const std::string field = fmt::format("sulphides[{}].mineral", i);
    if (!mineral) return refusal(ErrorCode::out_of_range, field, fmt::format("'{}' is no sulphide of the table", one.mineral));
    if (!seen.insert(mineral->name).second)
      return refusal(ErrorCode::conflict, field, fmt::format("{} stands twice", mineral->name));
    const double pct = one.share.in(unit::percent);
    if (!(pct >= 0 && pct <= 100))
      return refusal(ErrorCode::out_of_range, fmt::format("sulphides[{}].pct", i), "a share lies from 0 to 100 %");
    sum += pct;
  }
  if (sum > 100 + rounding) return refusal(ErrorCode::inconsistent, "sulphides", "silica and sulphides make more than 100 %");
  return {};
}

Result<void> check_knowledge(const ChargeInput& in) {
  if (in.reducing_power) return {};
  if (!in.kind) return refusal(ErrorCode::missing_key, "ore_kind", "the kind of ore or its reducing power is needed");
  const bool named = std::any_of(in.sulphides.begin(), in.sulphides.end(), [](const auto& one) { return one.share > Share{}; });
  if (*in.kind == OreKind::sulphide && !named)
    return refusal(ErrorCode::missing_key, "reducing_power_g_per_g",
                   "a sulphide ore needs its measured reducing power or its sulphides by name");
  return {};
}

// Share of the rest (neither sulphide nor given silica) that counts as silica, iron oxide and limestone.
struct Rest {
  double silica, ferric_oxide, limestone;
};

Rest rest_of(const ChargeInput& in) {
  const bool silica_open = !in.silica;
  if (!in.kind) return {silica_open ? 1.0 : 0.0, 0, 0};
  switch (*in.kind) {
    case OreKind::siliceous:
    case OreKind::sulphide: return {silica_open ? 1.0 : 0.0, 0, 0};
    case OreKind::oxide: return {0, 1, 0};
    case OreKind::carbonate: return {0, 0, 1};
    case OreKind::mixed: return silica_open ? Rest{0.5, 0.25, 0.25} : Rest{0, 0.5, 0.5};
  }
  return {0, 0, 0};
}

OreParts parts_of(const ChargeInput& in) {
  OreParts parts;
  double sulphide_pct = 0;
  for (const SulphideShare& one : in.sulphides) {
    const Sulphide& mineral = *find_sulphide(one.mineral);
    const Mass mass = in.ore * (one.share.in(unit::percent) / 100);
    sulphide_pct += one.share.in(unit::percent);
    parts.lead_practice += mass * mineral.practice.value;
    parts.lead_theory += mass * mineral.theory();
    parts.own_lead += mass * mineral.lead_content;
    parts.sulphide_base_oxygen += mass.in(unit::gram) / mineral.molar_mass * mineral.base_oxygen;
  }
  const double silica_pct = in.silica ? in.silica->in(unit::percent) : 0;
  const Mass rest_mass = in.ore * (std::max(0.0, 100 - sulphide_pct - silica_pct) / 100);
  const Rest rest = rest_of(in);
  parts.silica = in.ore * (silica_pct / 100) + rest_mass * rest.silica;
  parts.ferric_oxide = rest_mass * rest.ferric_oxide;
  parts.limestone = rest_mass * rest.limestone;
  parts.assumed = !in.silica && in.kind != OreKind::siliceous && rest_mass > Mass{};
  parts.lead_practice -= parts.ferric_oxide * ferric_oxide_practice.value;
  parts.lead_theory -= parts.ferric_oxide * ferric_oxide_theory.value;
  if (in.reducing_power) parts.lead_practice = parts.lead_theory = in.ore * *in.reducing_power;
  return parts;
}

Mass lead_available(const Charge& charge, const OreParts& parts) { return charge.litharge * lead_per_litharge + parts.own_lead; }

// Litharge left in the slag once the button is made; the ore's own lead goes into the button first.
Mass litharge_left(const Charge& charge, const OreParts& parts) {
  const Mass from_litharge = std::max(charge.button_expected - parts.own_lead, Mass{});
  return std::max(charge.litharge - from_litharge / lead_per_litharge, Mass{});
}

void set_reducer(const ChargeInput& in, const OreParts& parts, Charge& charge) {
  const Mass wanted = in.button_target - parts.lead_practice;
  if (wanted >= Mass{})
    charge.flour = flour_for(wanted, in.flour_power);
  else
    charge.nitre = nitre_for(-wanted, in.nitre_power);
}

void set_button(const ChargeInput& in, const OreParts& parts, Charge& charge) {
  Mass expected = parts.lead_practice, theory = parts.lead_theory;
  if (charge.flour) {
    expected += *charge.flour * in.flour_power;
    theory += *charge.flour * find_reagent("flour")->theory.value;
  }
  if (charge.nitre) {
    expected -= *charge.nitre * in.nitre_power;
    theory += *charge.nitre * find_reagent("nitre")->theory.value;
  }
  charge.button_expected = std::clamp(expected, Mass{}, lead_available(charge, parts));
  charge.button_theory = std::clamp(theory, Mass{}, lead_available(charge, parts));
}

SlagOxygen slag_of(const Charge& charge, const OreParts& parts) {
  constexpr double nitre_molar = atomic::k + atomic::n + 3 * atomic::o;
  constexpr double ferrous_per_ferric = 2 * (atomic::fe + atomic::o) / (2 * atomic::fe + 3 * atomic::o);
  SlagOxygen slag;
  slag.add_silica(parts.silica + charge.silica);
  slag.add(Base::soda_ash, charge.soda_ash);
  slag.add(Base::litharge, litharge_left(charge, parts));
  slag.add(Base::ferrous_oxide, parts.ferric_oxide * ferrous_per_ferric);
  slag.add(Base::limestone, parts.limestone);
  slag.base += parts.sulphide_base_oxygen;
  if (charge.nitre) slag.base += charge.nitre->in(unit::gram) / nitre_molar / 2;
  return slag;
}

void set_flux(const ChargeInput& in, const OreParts& parts, const Recipe& recipe, Charge& charge) {
  const Mass for_button = in.button_target / lead_per_litharge;
  charge.litharge = in.litharge.value_or(std::max(in.ore * recipe.litharge_per_ore, for_button + in.ore));
  charge.soda_ash = in.soda_ash.value_or(std::max(parts.silica * soda_per_silica, in.ore * recipe.soda_per_ore));
  charge.borax_glass = in.ore * recipe.borax_per_ore;
}

void set_silica(const OreParts& parts, const Recipe& recipe, Charge& charge) {
  const SlagOxygen slag = slag_of(charge, parts);
  const double missing = recipe.silicate_degree * slag.base - slag.acid;
  charge.silica = Mass(std::max(0.0, missing / 2 * silica_molar), unit::gram);
  charge.silicate_degree = slag_of(charge, parts).degree();
}

void set_warnings(const ChargeInput& in, const OreParts& parts, Charge& charge) {
  const auto warn = [&](bool when, ChargeWarning warning) {
    if (when) charge.warnings.push_back(warning);
  };
  const Mass target = in.button_target;
  warn(litharge_left(charge, parts) < in.ore * (least_flux_litharge - rounding), ChargeWarning::litharge_scarce);
  warn(charge.button_expected < target * (1 - rounding), ChargeWarning::button_off_target);
  warn(target < Mass(18, unit::gram), ChargeWarning::button_small);
  warn(target > Mass(50, unit::gram), ChargeWarning::button_large);
  if (charge.nitre) {
    const Mass burnt = *charge.nitre * -find_reagent("nitre")->theory.value;
    warn(burnt >= parts.lead_practice, ChargeWarning::nitre_burns_all_lead);
    warn(*charge.nitre > in.ore * (1 + rounding), ChargeWarning::nitre_may_boil_over);
  }
  if (charge.silicate_degree) {
    warn(*charge.silicate_degree < 1 - rounding, ChargeWarning::silicate_degree_low);
    warn(*charge.silicate_degree > 3 + rounding, ChargeWarning::silicate_degree_high);
  }
  warn(parts.assumed, ChargeWarning::composition_assumed);
  const Mass unburnt = parts.lead_practice - charge.nitre.value_or(Mass{}) * in.nitre_power;
  warn(parts.lead_practice > Mass{} && unburnt > lead_available(charge, parts) * (1 + rounding), ChargeWarning::iron_needed);
  warn(in.cupel && std::max(target, charge.button_expected) > *in.cupel, ChargeWarning::cupel_small);
}

}  // namespace

std::optional<OreKind> find_ore_kind(std::string_view contract_name) {
  if (contract_name == "siliceous") return OreKind::siliceous;
  if (contract_name == "oxide") return OreKind::oxide;
  if (contract_name == "sulphide") return OreKind::sulphide;
  if (contract_name == "carbonate") return OreKind::carbonate;
  if (contract_name == "mixed") return OreKind::mixed;
  return std::nullopt;
}

std::string_view contract_name(ChargeWarning warning) {
  switch (warning) {
    case ChargeWarning::litharge_scarce: return "litharge_scarce";
    case ChargeWarning::button_off_target: return "button_off_target";
    case ChargeWarning::button_small: return "button_small";
    case ChargeWarning::button_large: return "button_large";
    case ChargeWarning::nitre_burns_all_lead: return "nitre_burns_all_lead";
    case ChargeWarning::nitre_may_boil_over: return "nitre_may_boil_over";
    case ChargeWarning::silicate_degree_low: return "silicate_degree_low";
    case ChargeWarning::silicate_degree_high: return "silicate_degree_high";
    case ChargeWarning::composition_assumed: return "composition_assumed";
    case ChargeWarning::iron_needed: return "iron_needed";
    case ChargeWarning::cupel_small: return "cupel_small";
  }
  return "";
}

Result<Charge> design_charge(const ChargeInput& in) {
  PRILLBOOK_TRY(check_figures(in));
  PRILLBOOK_TRY(check_minerals(in));
  PRILLBOOK_TRY(check_knowledge(in));
  const OreParts parts = parts_of(in);
  const Recipe recipe = recipe_for(kind_for_flux(in));
  Charge charge;
  set_flux(in, parts, recipe, charge);
  set_reducer(in, parts, charge);
  set_button(in, parts, charge);
  set_silica(parts, recipe, charge);
  set_warnings(in, parts, charge);
  return charge;
}

Result<Charge> judge_charge(const ChargeInput& in, const Mixture& weighed) {
  PRILLBOOK_TRY(check_figures(in));
  PRILLBOOK_TRY(check_minerals(in));
  PRILLBOOK_TRY(check_knowledge(in));
  for (const auto& [mass, field] :
       {std::pair(weighed.litharge, "litharge"), std::pair(weighed.soda_ash, "soda_ash"), std::pair(weighed.borax, "borax"),
        std::pair(weighed.silica, "silica"), std::pair(weighed.flour, "flour"), std::pair(weighed.nitre, "nitre")})
    if (mass && !(std::isfinite(mass->in(unit::gram)) && *mass >= Mass{}))
      return refusal(ErrorCode::out_of_range, field, "a mass is not below 0");
  const OreParts parts = parts_of(in);
  Charge charge;
  charge.litharge = weighed.litharge.value_or(Mass{});
  charge.soda_ash = weighed.soda_ash.value_or(Mass{});
  charge.borax_glass = weighed.borax.value_or(Mass{});
  charge.silica = weighed.silica.value_or(Mass{});
  charge.flour = weighed.flour;
  charge.nitre = weighed.nitre;
  set_button(in, parts, charge);
  charge.silicate_degree = slag_of(charge, parts).degree();
  set_warnings(in, parts, charge);
  return charge;
}

}  // namespace prillbook
