// SPDX-License-Identifier: GPL-3.0-or-later
// Its charge was made long after the last control of a kind that the lab has set itself.
#include <fmt/format.h>

#include "core/findings/quality_evidence.h"

namespace prillbook::findings {
namespace {

const char* insertion_in_words(controls::Insertion what) {
  switch (what) {
    case controls::Insertion::blank: return "rock blank";
    case controls::Insertion::reference: return "reference material";
    case controls::Insertion::duplicate: return "duplicate";
  }
  return "";
}

}  // namespace

// A lab that never made one has not begun: it is not reminded with every sample.
std::optional<Finding> insertion_overdue(const Scene& scene) {
  if (!scene.quality) return std::nullopt;
  for (const results::ChargeSince& charge : scene.quality->since)
    for (const controls::Since& since : charge.since) {
      if (!since.ever || since.one_in == 0 || since.charges <= since.one_in) continue;
      Finding finding;
      finding.rule = "insertion_overdue";
      finding.severity = Severity::note;
      finding.sample = scene.record.sample.id;
      finding.seen = fmt::format("{} was charge {} after the last {}; the lab has set one in {}.", charge.label, since.charges,
                                 insertion_in_words(since.what), since.one_in);
      finding.why = "What goes wrong between two controls stays unseen until the next one.";
      finding.to_do = "Put one into the next load.";
      finding.source = "the lab’s own plan; one in 20 is common practice, no source";
      finding.evidence = {{charge.label, std::to_string(since.charges), history::Entity::charge, charge.charge.value}};
      return finding;
    }
  return std::nullopt;
}

}  // namespace prillbook::findings
