// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/fire/reducing.h"

#include <algorithm>

namespace prillbook {
namespace {

using namespace atomic;

constexpr double starch = 6 * c + 10 * h + 5 * o;
constexpr double tartar = k + 4 * c + 5 * h + 6 * o;
constexpr double nitre = k + n + 3 * o;
constexpr double red_lead = 3 * pb + 4 * o;

constexpr Reagent reagent_table[] = {
    {"flour", {flour_practice, "BER p. 94"}, {reducing_power(12, starch), "C6H10O5 + 12 PbO -> 12 Pb + 6 CO2 + 5 H2O"}},
    {"charcoal", {22.6, "BER p. 94: 1.5 g gave 34.0 g"}, {reducing_power(2, c), "C + 2 PbO -> 2 Pb + CO2"}},
    {"tartar", {5.0, "BER p. 94: 7.5 g gave 38.0 g"}, {reducing_power(5, tartar), "KHC4H4O6 + 5 PbO -> 5 Pb + CO2, H2O, K2O"}},
    {"nitre", {-nitre_practice, "BER p. 95"}, {-reducing_power(2.5, nitre), "2 KNO3 + 5 Pb -> 5 PbO + K2O + N2"}},
    {"red_lead", {-0.20, "BER p. 95: 5 g burns 1 g"}, {-reducing_power(1, red_lead), "Pb3O4 + Pb -> 4 PbO"}},
};

constexpr double galena_molar = pb + s;

// Practice: BER p. 95, but galena from the measured 33.5 g of 10 g on p. 97 ("a little over 3" on p. 95).
// Pyrrhotite and chalcocite: from memory, textbooks of the 1910s and 1920s, not seen.
// Oxygen: Fe2O3, CuO, ZnO, Sb2O4, As2O5 and SO3; galena as PbS + 3 PbO -> 4 Pb + SO3, its own lead counted.
constexpr Sulphide sulphide_table[] = {
    {"pyrite", "iron_pyrites", {11, "BER p. 95"}, 7.5, fe + 2 * s, 1, 0},
    {"marcasite", "", {11, "BER p. 95, as pyrites"}, 7.5, fe + 2 * s, 1, 0},
    {"pyrrhotite", "magnetic_pyrites", {8.71, "from memory"}, 34.5, 7 * fe + 8 * s, 7, 0},
    {"chalcopyrite", "copper_pyrites", {7.5, "BER p. 95: 7 to 8"}, 8.5, cu + fe + 2 * s, 1.5, 0},
    {"chalcocite", "copper_glance", {5.0, "from memory"}, 5, 2 * cu + s, 1, 0},
    {"sphalerite", "blende", {7.5, "BER p. 95: 7 to 8"}, 4, zn + s, 1, 0},
    {"tetrahedrite", "fahlerz", {7.5, "BER p. 95: 7 to 8"}, 59, 12 * cu + 4 * sb + 13 * s, 6, 0},
    {"arsenopyrite", "mispickel", {7.5, "BER p. 95: 7 to 8"}, 7, fe + as + s, 1, 0},
    {"stibnite", "antimonite", {6, "BER p. 95"}, 13, 2 * sb + 3 * s, 0, 0},
    {"galena", "", {3.35, "BER p. 97: 10 g gave 33.5 g"}, 4, galena_molar, 0, pb / galena_molar},
};

}  // namespace

double Sulphide::theory() const { return reducing_power(oxygen, molar_mass); }

std::span<const Reagent> reagents() { return reagent_table; }

const Reagent* find_reagent(std::string_view name) {
  const auto found =
      std::find_if(std::begin(reagent_table), std::end(reagent_table), [&](const Reagent& r) { return r.name == name; });
  return found == std::end(reagent_table) ? nullptr : found;
}

std::span<const Sulphide> sulphides() { return sulphide_table; }

const Sulphide* find_sulphide(std::string_view name) {
  if (name.empty()) return nullptr;
  const auto found = std::find_if(std::begin(sulphide_table), std::end(sulphide_table),
                                  [&](const Sulphide& one) { return one.name == name || one.trade_name == name; });
  return found == std::end(sulphide_table) ? nullptr : found;
}

}  // namespace prillbook
