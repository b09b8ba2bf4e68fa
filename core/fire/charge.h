// SPDX-License-Identifier: GPL-3.0-or-later
// Design of a crucible charge: flux for the ore, and flour or nitre for a lead button of the wanted mass.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "core/base/result.h"
#include "core/fire/reducing.h"

namespace prillbook {

enum class OreKind { siliceous, oxide, sulphide, carbonate, mixed };
std::optional<OreKind> find_ore_kind(std::string_view contract_name);

struct SulphideShare {
  std::string mineral;  // a name of find_sulphide()
  Share share;          // of the ore, 0 to 100 %
};

struct ChargeInput {
  Mass ore;                              // > 0
  std::optional<OreKind> kind;           // may be absent where reducing_power is known
  std::optional<double> reducing_power;  // measured, g lead per g ore, -3 to 35; below 0 the ore burns lead
  Mass button_target;                    // > 0
  std::optional<Share> silica;           // of the ore
  std::vector<SulphideShare> sulphides;
  std::optional<Mass> litharge;         // >= 0: instead of the designed amount
  std::optional<Mass> soda_ash;         // >= 0: as litharge
  double flour_power = flour_practice;  // > 0, g lead per g
  double nitre_power = nitre_practice;  // > 0, g lead burnt per g
  std::optional<Mass> cupel;            // > 0: that the button is to go on
};

// What goes into a pot beside the ore; an empty optional was not weighed in.
struct Mixture {
  std::optional<Mass> litharge, soda_ash, borax, silica, flour, nitre;
  std::optional<Mass> flux;  // of a lot mixed ahead
};

enum class ChargeWarning {
  litharge_scarce,       // less is left as flux, after the button, than a third of the ore
  button_off_target,     // the litharge can't give the wanted button
  button_small,          // wanted button below 18 g
  button_large,          // wanted button above 50 g
  nitre_burns_all_lead,  // at its full power the nitre would burn more lead than the ore reduces
  nitre_may_boil_over,   // more nitre than ore
  silicate_degree_low,   // below 1
  silicate_degree_high,  // above 3
  composition_assumed,   // silica was not given and the kind of ore leaves it open
  iron_needed,           // sulphide is left that neither litharge nor nitre burns: matte, unless iron is added
  cupel_small,           // the button is heavier than its cupel
};
std::string_view contract_name(ChargeWarning warning);

struct Charge {
  Mass litharge, soda_ash, borax_glass, silica;
  std::optional<Mass> flour, nitre;       // exactly one of the two; flour 0 where the ore itself gives the button
  Mass button_expected;                   // by practice values
  Mass button_theory;                     // by stoichiometry, the same charge; never below 0
  std::optional<double> silicate_degree;  // lead reduced to the button and borax left out; absent without bases
  std::vector<ChargeWarning> warnings;
};

// Rules and their sources: docs/methods-furnace.md.
// Errors: missing_key (neither kind nor reducing power, field ore_kind; a sulphide ore without named sulphides or a
// reducing power, field reducing_power_g_per_g), out_of_range (unknown mineral, field sulphides[i].mineral, and figures
// outside the domains above), conflict (a mineral twice), inconsistent (silica and sulphides above 100 %, field sulphides).
Result<Charge> design_charge(const ChargeInput& input);

// What a charge as it was weighed in should give: its masses are those of `weighed`, the rest as in design_charge. A lot of
// mixed flux counts for nothing here. Errors: as design_charge; out_of_range for a mass below 0.
Result<Charge> judge_charge(const ChargeInput& input, const Mixture& weighed);

// Flour for `lead`, and nitre to burn `lead`. Domain: lead >= 0, power > 0.
inline Mass flour_for(Mass lead, double power = flour_practice) { return lead / power; }
inline Mass nitre_for(Mass lead, double power = nitre_practice) { return lead / power; }

}  // namespace prillbook
