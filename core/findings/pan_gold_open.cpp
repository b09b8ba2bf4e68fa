// SPDX-License-Identifier: GPL-3.0-or-later
// The gold found in bead, remainder and tail of a pan test is not the gold that fire says the portion held.
#include <fmt/format.h>

#include "core/assay/rounding.h"
#include "core/findings/finding.h"
#include "core/units/units.h"

namespace prillbook::findings {
namespace {

constexpr double half_width_of_99 = 2.576 / 1.960;  // in half widths of the 95 % interval

// Beyond the 99 % interval: of tests without a slip one in twenty misses the 95 % interval, and that is no finding.
bool is_far_off(const results::GoldMass& gap, bool over) {
  const Mass half_width = over ? *gap.hi - gap.value : gap.value - *gap.lo;
  return (over ? -gap.value : gap.value) > half_width * half_width_of_99;
}

std::string milligrams(const results::GoldMass& gold) {
  std::optional<double> half_width;
  if (gold.lo && gold.hi) half_width = (gold.hi->in(unit::milligram)-gold.lo->in(unit::milligram)) / 2;
  return written(gold.value.in(unit::milligram), half_width);
}

}  // namespace

std::optional<Finding> pan_gold_open(const Scene& scene) {
  for (const results::PanAccount& account : scene.result.pan_accounts) {
    const bool over = account.verdict == results::GoldBalance::over_head;
    if (!over && account.verdict != results::GoldBalance::short_of_head) continue;
    if (!is_far_off(*account.gold_gap, over)) continue;
    Finding finding;
    finding.rule = "pan_gold_open";
    finding.severity = Severity::caution;
    finding.sample = scene.record.sample.id;
    finding.seen = fmt::format("Pan test {} gave {} mg of gold in bead, remainder and tail; by fire its portion held {} mg{}",
                               account.label, milligrams(*account.found), milligrams(*account.head),
                               account.sampling_judged ? ", sampling included." : "; sampling not judged.");
    finding.why =
        over ? "More gold than the rock holds by fire: a coarse grain in this portion, gold lost in the fusions, or a slip."
             : "Gold that was neither caught nor found again: slime poured off, a bead lost, a coarse grain in the "
               "fire charges, or a slip.";
    finding.to_do =
        "Look at the weighings of remainder and tail and at their assays; fuse another charge of the rock and of the tail.";
    finding.source = "common practice, no source; beyond the 99 % interval of docs/methods-pan.md";
    finding.evidence = {{"found, mg", milligrams(*account.found), history::Entity::pan_test, account.test.value},
                        {"by fire, mg", milligrams(*account.head), history::Entity::sample, scene.record.sample.id.value},
                        {"not accounted for, mg", milligrams(*account.gold_gap), history::Entity::pan_test, account.test.value}};
    return finding;
  }
  return std::nullopt;
}

}  // namespace prillbook::findings
