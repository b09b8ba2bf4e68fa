// SPDX-License-Identifier: GPL-3.0-or-later
// One client mark on two samples of a consignment.
#include <fmt/format.h>

#include "core/findings/custody_words.h"

namespace prillbook::findings {

std::optional<Finding> same_mark(const Scene& scene) {
  const std::vector<std::string>& others = scene.record.custody.same_mark;
  if (others.empty()) return std::nullopt;
  const custody::Sample& sample = scene.record.sample;
  Noted noted;
  noted.add(fmt::format("{} has the mark “{}” as well.", fmt::join(others, ", "), sample.mark),
            {"same mark", fmt::format("{}", fmt::join(others, ", ")), history::Entity::sample, sample.id.value});
  return noted.finding("same_mark", Severity::note, scene,
                       "The client knows the rock by its mark: with one mark on two bags the figures cannot be told apart.",
                       "Ask the client how the two differ and add it to the marks; or one bag was entered twice.",
                       "ISO/IEC 17025:2017 7.4.2: an identity that is kept unambiguous (from memory)");
}

}  // namespace prillbook::findings
