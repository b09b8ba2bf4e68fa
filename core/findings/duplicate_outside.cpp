// SPDX-License-Identifier: GPL-3.0-or-later
// A test of the sample and its duplicate lie further apart than the lab lets pass.
#include <fmt/format.h>

#include "core/assay/rounding.h"
#include "core/findings/quality_evidence.h"

namespace prillbook::findings {
namespace {

Evidence of_test(const results::SingleTest& test, DecimalMark mark) {
  const std::string gold = written(test.gold()->g_t(), {}, 0.01, mark) + " g/t";
  return test.charge ? Evidence{test.label, gold, history::Entity::charge, test.charge.value}
                     : Evidence{test.label, gold, history::Entity::pan_test, test.pan_test.value};
}

}  // namespace

std::optional<Finding> duplicate_outside(const Scene& scene) {
  if (!scene.quality) return std::nullopt;
  const DecimalMark mark = scene.record.settings.decimal_mark;
  Finding finding;
  finding.rule = "duplicate_outside";
  finding.severity = Severity::caution;
  finding.sample = scene.record.sample.id;
  for (const results::DuplicatePair& pair : scene.quality->pairs) {
    if (pair.verdict != results::ControlVerdict::outside) continue;
    const Evidence first = of_test(pair.first, mark), second = of_test(pair.second, mark);
    finding.seen +=
        fmt::format("{}{} gave {} of gold and its {} {} gave {}: {} % apart, where {} % is let pass.",
                    finding.seen.empty() ? "" : " ", first.what, first.figure, controls::role_in_words(pair.second.role),
                    second.what, second.figure, fixed(*pair.apart_pct, 0, mark), written(pair.limit_pct, {}, {}, mark));
    finding.evidence.push_back(first);
    finding.evidence.push_back(second);
  }
  if (finding.evidence.empty()) return std::nullopt;
  finding.why =
      "They should tell the same: coarse gold, a poor split, beads that changed places or a slip of the pen parts them.";
  finding.to_do =
      "Compare the two weighings and their places on the tray; with visible gold, assay metallics or larger portions.";
  finding.source = "limits from memory, common practice; set by the lab (quality.duplicate_…_limit_pct)";
  return finding;
}

}  // namespace prillbook::findings
