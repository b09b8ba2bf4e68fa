// SPDX-License-Identifier: GPL-3.0-or-later
// Two charges of one rock agree in gold or not, but their silver is far apart.
#include <fmt/format.h>

#include "core/findings/charge_pairs.h"

namespace prillbook::findings {

std::optional<Finding> silver_apart(const Scene& scene) {
  const auto pair = widest_pair(scene, &GradeResult::silver);
  if (!pair) return std::nullopt;
  Finding finding = of_pair(scene, "silver_apart", "silver", *pair);
  finding.why =
      "Silver is what is left of the bead: collector silver, the blank of a lot or a parting that was not complete is in it.";
  finding.to_do = "Look whether silver went into one of the crucibles and was not written down, and which lots were taken.";
  return finding;
}

}  // namespace prillbook::findings
