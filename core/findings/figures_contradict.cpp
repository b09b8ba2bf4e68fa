// SPDX-License-Identifier: GPL-3.0-or-later
// A test has no result, since its figures contradict each other.
#include <fmt/format.h>

#include "core/findings/finding.h"

namespace prillbook::findings {

std::optional<Finding> figures_contradict(const Scene& scene) {
  const results::SampleResult& result = scene.result;
  for (const auto* tests : {&result.pan, &result.fire.tests, &result.remainder.tests, &result.tail.tests, &result.of_fractions})
    for (const results::TestResult& test : *tests) {
      if (test.state != results::TestState::refused || !test.error) continue;
      Finding finding;
      finding.rule = "figures_contradict";
      finding.severity = Severity::caution;
      finding.sample = scene.record.sample.id;
      finding.seen = fmt::format("{} gives no result: {}.", test.label, test.error->detail);
      finding.why = "What contradicts itself is left out of every mean, and nobody sees it there.";
      finding.to_do = "Look at the weighings of the bead, at its portion and at what was corrected for, and put the slip right.";
      finding.source = "common practice";
      finding.evidence = {{test.label, test.error->detail, test.pan_test ? history::Entity::pan_test : history::Entity::charge,
                           test.pan_test ? test.pan_test.value : test.charge.value}};
      return finding;
    }
  return std::nullopt;
}

}  // namespace prillbook::findings
