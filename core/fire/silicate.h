// SPDX-License-Identifier: GPL-3.0-or-later
// Silicate degree of a slag: oxygen in the acid (silica) over oxygen in the bases. 1 is a mono-, 2 a bisilicate.
#pragma once

#include <optional>

#include "core/fire/reducing.h"

namespace prillbook {

enum class Base { soda_ash, bicarbonate, potash, litharge, ferrous_oxide, lime, limestone, manganous_oxide };

// Grams of a base for one mole of oxygen it brings as base.
double grams_per_base_oxygen(Base base);
inline constexpr double silica_molar = atomic::si + 2 * atomic::o;

// Grams of `base` that make one gram of silica a silicate of the given degree. Domain: degree > 0.
double base_per_silica(Base base, double degree);

// Moles of oxygen on each side.
struct SlagOxygen {
  double acid = 0;
  double base = 0;

  void add_silica(Mass silica) { acid += 2 * silica.in(unit::gram) / silica_molar; }
  void add(Base kind, Mass mass) { base += mass.in(unit::gram) / grams_per_base_oxygen(kind); }
  std::optional<double> degree() const;  // absent where there is no base
};

}  // namespace prillbook
