// SPDX-License-Identifier: GPL-3.0-or-later
// The uncertainty that a certificate states, as one standard uncertainty.
#pragma once

#include <optional>
#include <string_view>

namespace prillbook {

enum class StatedUncertainty {
  standard,  // k = 1
  expanded,  // k = 2, about 95 %
  limits,    // the value lies within ± this, all places alike
};
std::optional<StatedUncertainty> find_stated_uncertainty(std::string_view name);  // "standard", "expanded", "limits"

// In the unit of `stated`: itself, its half, or its part of √3. Source: GUM 4.3.3 and 4.3.7 as QUAM A2 uses them.
// Domain: stated >= 0.
double standard_uncertainty(double stated, StatedUncertainty meaning);

}  // namespace prillbook
