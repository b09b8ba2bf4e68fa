// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/assay/grain_sampling.h"

#include <cmath>
#include <numbers>

namespace prillbook {

Mass sphere_mass(Opening diameter, Density density) {
  const double centimetres = diameter.in(unit::micrometre)*1e-4;
  return Mass(std::numbers::pi / 6 * centimetres * centimetres * centimetres * density.in(unit::gram_per_cubic_centimetre),
              unit::gram);
}

double expected_grains(Grade grade, Mass portion, Opening diameter, Density density) {
  return grade.in(unit::gram_per_tonne)*1e-6 * (portion / sphere_mass(diameter, density));
}

std::optional<Grade> grain_sampling_sd(Grade grade, Mass portion, Opening diameter, Density density) {
  const double grains = expected_grains(grade, portion, diameter, density);
  if (!(grains > 0)) return std::nullopt;
  return grade / std::sqrt(grains);
}

}  // namespace prillbook
