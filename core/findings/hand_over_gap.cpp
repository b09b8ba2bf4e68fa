// SPDX-License-Identifier: GPL-3.0-or-later
// A hand-over that does not start where the last one ended.
#include <fmt/format.h>

#include "core/findings/custody_words.h"

namespace prillbook::findings {

std::optional<Finding> hand_over_gap(const Scene& scene) {
  const custody::CustodyRecord& custody = scene.record.custody;
  const std::vector<custody::Link>& links = custody.chain.links;
  Noted noted;
  for (std::size_t i = 1; i < links.size(); ++i) {
    const custody::Link &before = links[i - 1], &link = links[i];
    if (before.to.empty() || custody.holders.same(before.to, link.from)) continue;
    const bool written = bool(link.id);
    noted.add(fmt::format("{} had it; {} gave it on {}.", before.to, link.from, moment_in_words(link.at)),
              {"giver", fmt::format("{}, after {}", link.from, before.to),
               written ? history::Entity::hand_over : history::Entity::consignment,
               written ? link.id.value : scene.record.consignment.id.value});
  }
  if (noted.empty()) return std::nullopt;
  return noted.finding("hand_over_gap", Severity::caution, scene, "Between the two nobody is known to have had the sample.",
                       "Ask both, and write the hand-over that is missing or correct the name.",
                       "EPA Region V 905R78115 (1978): signatures and inclusive dates of all holders");
}

}  // namespace prillbook::findings
