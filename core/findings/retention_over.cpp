// SPDX-License-Identifier: GPL-3.0-or-later
// What is left has been kept as long as was agreed. Speaks of now, so it is looked at anew each time.
#include <fmt/format.h>

#include "core/findings/custody_words.h"

namespace prillbook::findings {

std::optional<Finding> retention_over(const Scene& scene, const Instant& now) {
  const custody::Sample& sample = scene.record.sample;
  if (!sample.retain_until || sample.retain_until->utc_ms >= now.utc_ms || sample.disposal) return std::nullopt;
  Noted noted;
  noted.add(fmt::format("What is left was to be kept until {}.", local_date(*sample.retain_until)),
            {"kept until", moment_in_words(*sample.retain_until), history::Entity::sample, sample.id.value});
  return noted.finding("retention_over", Severity::note, scene,
                       "The place is needed; but what was thrown away cannot settle a dispute.",
                       "Ask the client whether it goes back or may go, and write down what became of it and when.",
                       "common practice: coarse rejects one to three months, pulps a year or until a dispute has ended "
                       "(from memory)");
}

}  // namespace prillbook::findings
