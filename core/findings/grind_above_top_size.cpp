// SPDX-License-Identifier: GPL-3.0-or-later
// The grind stated for a pan test is coarser than the largest piece that the last machine left.
#include <fmt/format.h>

#include "core/findings/finding.h"
#include "core/findings/wording.h"
#include "core/sieving/sieve_name.h"
#include "core/units/units.h"

namespace prillbook::findings {
namespace {

constexpr double same_size = 1.05;  // a sieve by its number and by its opening may differ as much

}  // namespace

std::optional<Finding> grind_above_top_size(const Scene& scene) {
  const DecimalMark mark = scene.record.settings.decimal_mark;
  for (const results::PanEntry& entry : scene.record.pan_tests) {
    const gravity::PanTest& test = entry.test;
    if (test.spoiled || !test.grind || !(test.grind->value > 0)) continue;
    const milling::Step* step =
        scene.record.last_step_before(test.portion, test.panned_at.value_or(Instant{INT64_MAX, 0}),
                                      [](const milling::Step& one) { return one.top_size && one.top_size->value > 0; });
    if (!step || !(test.grind->opening() > step->top_size->opening() * same_size)) continue;
    const std::string stated = opening_in_words(test.grind->opening(), mark);
    const std::string top = opening_in_words(step->top_size->opening(), mark);
    Finding finding;
    finding.rule = "grind_above_top_size";
    finding.severity = Severity::caution;
    finding.sample = scene.record.sample.id;
    finding.seen = fmt::format("Pan test {} states a grind of {}; the {} before it left nothing above {}.",
                               scene.record.portion_label(test.portion), stated, step_in_words(*step), top);
    finding.why =
        "P80 is never above the top size: perhaps the grind of an earlier machine was written. The recovery would be set down to "
        "it.";
    finding.to_do = "Write the grind as it was panned, by a sieve analysis where there is one, or correct the top size.";
    finding.source = "P80 by its definition; common practice, no source";
    finding.evidence = {{"grind stated", stated, history::Entity::pan_test, test.id.value},
                        {"top size", top, history::Entity::step, step->id.value}};
    return finding;
  }
  return std::nullopt;
}

}  // namespace prillbook::findings
