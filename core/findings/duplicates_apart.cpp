// SPDX-License-Identifier: GPL-3.0-or-later
// Two charges of one rock found gold that is further apart than they can be by weighing and by luck.
#include <fmt/format.h>

#include "core/findings/charge_pairs.h"

namespace prillbook::findings {

std::optional<Finding> duplicates_apart(const Scene& scene) {
  const auto pair = widest_pair(scene, &GradeResult::gold);
  if (!pair) return std::nullopt;
  Finding finding = of_pair(scene, "duplicates_apart", "gold", *pair);
  finding.why = "One of the two is a slip, another sample's bead, or holds a coarse grain; their mean is none of these.";
  finding.to_do =
      "Check masses, bead numbers and the bench sheet of both. Fuse a third charge; where gold can be seen, screen for "
      "metallics.";
  return finding;
}

}  // namespace prillbook::findings
