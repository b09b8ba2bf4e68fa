// SPDX-License-Identifier: GPL-3.0-or-later
// Lead reduced from litharge, or burnt back to it, by one gram of a reagent or mineral: "reducing power", g lead per g.
// Every coefficient carries where it comes from. BER is C. and J. J. Beringer, A Text-book of Assaying, 9th ed. (1904).
#pragma once

#include <optional>
#include <span>
#include <string_view>

#include "core/units/units.h"

namespace prillbook {

struct Coefficient {
  double value;
  std::string_view source;
};

// Atomic masses, IUPAC abridged values, from memory.
namespace atomic {
inline constexpr double h = 1.008, c = 12.011, n = 14.007, o = 15.999, na = 22.98977, si = 28.085, s = 32.06, k = 39.0983,
                        ca = 40.078, fe = 55.845, cu = 63.546, zn = 65.38, as = 74.921595, sb = 121.760, pb = 207.2, mn = 54.938;
}

inline constexpr double litharge_molar = atomic::pb + atomic::o;
inline constexpr double lead_per_litharge = atomic::pb / litharge_molar;  // 0.928

// Lead freed by a substance that takes `oxygen` atoms a formula unit from litharge.
constexpr double reducing_power(double oxygen, double molar_mass) { return oxygen * atomic::pb / molar_mass; }

// A reagent that reduces (value > 0) or burns lead (value < 0).
struct Reagent {
  std::string_view name;
  Coefficient practice;
  Coefficient theory;
};
std::span<const Reagent> reagents();  // flour, charcoal, tartar, nitre, red_lead
const Reagent* find_reagent(std::string_view name);

inline constexpr double flour_practice = 11.2;  // BER p. 94: 3 g gave 33.5 g
inline constexpr double nitre_practice = 4.0;   // BER p. 95, p. 98: 3.2 in an acid slag to 5.3 in a very basic one

// A sulphide mineral. Theory is the oxidation to sulphate and the highest oxide, the upper end of BER p. 98.
struct Sulphide {
  std::string_view name;
  std::string_view trade_name;  // second name accepted; may be empty
  Coefficient practice;
  double oxygen;        // atoms taken from litharge by one formula unit
  double molar_mass;    // g/mol
  double base_oxygen;   // oxygen of the bases one formula unit leaves in the slag (FeO, ZnO, Cu2O)
  double lead_content;  // g lead in one g, counted in the button
  double theory() const;
};
std::span<const Sulphide> sulphides();
const Sulphide* find_sulphide(std::string_view name);  // either name

// Iron oxide of an oxidised ore burns lead while it goes to FeO. g lead per g Fe2O3.
inline constexpr Coefficient ferric_oxide_practice{1.1,
                                                   "BER p. 91: a little more than its own weight; 1.1 is our reading of that"};
inline constexpr Coefficient ferric_oxide_theory{1.2975, "Fe2O3 + Pb -> 2 FeO + PbO"};

}  // namespace prillbook
