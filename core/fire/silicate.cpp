// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/fire/silicate.h"

namespace prillbook {

double grams_per_base_oxygen(Base base) {
  using namespace atomic;
  switch (base) {
    case Base::soda_ash: return 2 * na + c + 3 * o;
    case Base::bicarbonate: return 2 * (na + h + c + 3 * o);
    case Base::potash: return 2 * k + c + 3 * o;
    case Base::litharge: return litharge_molar;
    case Base::ferrous_oxide: return fe + o;
    case Base::lime: return ca + o;
    case Base::limestone: return ca + c + 3 * o;
    case Base::manganous_oxide: return mn + o;
  }
  return litharge_molar;
}

double base_per_silica(Base base, double degree) { return 2 / silica_molar * grams_per_base_oxygen(base) / degree; }

std::optional<double> SlagOxygen::degree() const {
  if (!(base > 0)) return std::nullopt;
  return acid / base;
}

}  // namespace prillbook
