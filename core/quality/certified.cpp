// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/quality/certified.h"

#include <cmath>

namespace prillbook {

std::optional<StatedUncertainty> find_stated_uncertainty(std::string_view name) {
  if (name == "standard") return StatedUncertainty::standard;
  if (name == "expanded") return StatedUncertainty::expanded;
  if (name == "limits") return StatedUncertainty::limits;
  return std::nullopt;
}

double standard_uncertainty(double stated, StatedUncertainty meaning) {
  switch (meaning) {
    case StatedUncertainty::standard: return stated;
    case StatedUncertainty::expanded: return stated / 2;
    case StatedUncertainty::limits: return stated / std::sqrt(3.0);
  }
  return stated;
}

}  // namespace prillbook
