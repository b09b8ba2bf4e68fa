// SPDX-License-Identifier: GPL-3.0-or-later
// Coarse gold split by scoop or by cone and quarter.
#include <fmt/format.h>

#include "core/findings/finding.h"
#include "core/findings/wording.h"
#include "core/preparation/splitting.h"
#include "core/results/sampling.h"

namespace prillbook::findings {

std::optional<Finding> poor_split(const Scene& scene) {
  const results::SampleRecord& record = scene.record;
  const auto colour = results::largest_colour(record);
  if (!colour || colour->in(unit::micrometre) < record.settings.coarse_gold_um) return std::nullopt;
  for (const milling::Step& step : record.steps) {
    const auto method = step.method ? find_split_method(*step.method) : std::nullopt;
    if (method != SplitMethod::scoop && method != SplitMethod::cone_and_quarter) continue;
    Finding finding;
    finding.rule = "poor_split";
    finding.severity = Severity::caution;
    finding.sample = record.sample.id;
    finding.seen =
        fmt::format("Gold of {} µm was seen, and the sample was split by {}.", two_digits(colour->in(unit::micrometre)),
                    method == SplitMethod::scoop ? "scoop" : "cone and quarter");
    finding.why = fmt::format("On sand this way of splitting scatters by {} %, a riffle by {} %; heavy grains fare worse.",
                              shortest(method_sd_pct(*method)), shortest(method_sd_pct(SplitMethod::riffle)));
    finding.to_do = "Put the parts together again, split by riffle or rotary splitter, and repeat the test.";
    finding.source = "Allen and Khan 1970 (order read in a handbook, figures from memory)";
    finding.evidence = {
        {"way of splitting", *step.method, history::Entity::step, step.id.value},
        {"largest colour, µm", two_digits(colour->in(unit::micrometre)), history::Entity::sample, record.sample.id.value}};
    return finding;
  }
  return std::nullopt;
}

}  // namespace prillbook::findings
