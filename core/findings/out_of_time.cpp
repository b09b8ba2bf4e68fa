// SPDX-License-Identifier: GPL-3.0-or-later
// Something was done before what comes before it.
#include <fmt/format.h>

#include "core/findings/custody_words.h"

namespace prillbook::findings {
namespace {

struct Moment {
  std::optional<Instant> at;
  const char* what;
};

template <class Words>
void must_follow(const Moment& before, const Moment& after, const Words& words, history::Entity entity, RecordId id,
                 Noted& noted) {
  if (!before.at || !after.at || after.at->utc_ms >= before.at->utc_ms) return;
  const std::string of = words();
  noted.add(fmt::format("{} was {} on {}, before it was {} on {}.", of, after.what, moment_in_words(*after.at), before.what,
                        moment_in_words(*before.at)),
            {after.what, moment_in_words(*after.at), entity, id});
}

}  // namespace

std::optional<Finding> out_of_time(const Scene& scene) {
  Noted noted;
  const auto test = [&](PortionId id, const weighing::Bead& bead, const Moment& done, history::Entity entity, RecordId record) {
    const auto label = [&] { return scene.record.portion_label(id); };
    const portions::Portion* portion = scene.record.portion(id);
    // A sieve fraction has no time of its own.
    if (portion && portion->purpose != "fraction") must_follow({portion->cut_at, "cut"}, done, label, entity, record, noted);
    for (const weighing::Weighing& one : bead.weighings)
      if (!one.excluded)
        must_follow(
            done, {one.weighed_at, "weighed"}, [&] { return "The bead of " + label(); }, history::Entity::weighing, one.id.value,
            noted);
  };
  for (const results::PanEntry& entry : scene.record.pan_tests)
    if (!entry.test.spoiled)
      test(entry.test.portion, entry.bead, {entry.test.panned_at, "panned"}, history::Entity::pan_test, entry.test.id.value);
  for (const results::FireEntry& entry : scene.record.charges)
    if (!entry.charge.spoiled)
      test(entry.charge.portion, entry.bead, {entry.charge.fired_at, "fused"}, history::Entity::charge, entry.charge.id.value);
  if (noted.empty()) return std::nullopt;
  return noted.finding("out_of_time", Severity::note, scene,
                       "A bead that was weighed before its charge was fused is another bead, or one of the times is wrong.",
                       "Look at the bench sheet and correct the time; where both are right, look whose bead it is.",
                       "common practice");
}

}  // namespace prillbook::findings
