// SPDX-License-Identifier: GPL-3.0-or-later
// The grind stated for a pan test is finer than the sieve analysis of the same split shows.
#include <fmt/format.h>

#include <algorithm>

#include "core/assay/rounding.h"
#include "core/findings/finding.h"
#include "core/sieving/sieve_name.h"
#include "core/units/units.h"

namespace prillbook::findings {
std::optional<Finding> panned_coarser(const Scene& scene) {
  const DecimalMark mark = scene.record.settings.decimal_mark;
  for (const results::PanEntry& entry : scene.record.pan_tests) {
    const auto& grind = entry.test.grind;
    const sieves::Analysis* beside = results::sieved_beside(scene.record, entry.test.portion);
    if (entry.test.spoiled || !grind || !(grind->value > 0) || !beside) continue;
    const auto size = std::find_if(scene.result.sizes.begin(), scene.result.sizes.end(),
                                   [&](const results::SizeResult& one) { return one.analysis == beside->id; });
    if (size == scene.result.sizes.end() || !size->curve || !size->curve->p80.size) continue;
    if (!(*size->curve->p80.size > grind->opening() * (1 + scene.record.settings.panned_coarser_pct / 100))) continue;
    const double p80 = size->curve->p80.size->in(unit::micrometre);
    const std::string stated = opening_in_words(grind->opening(), mark);
    const std::string found = rounded(p80, std::max(0, decimals_for_uncertainty(p80 / 100)), mark) + " µm";
    Finding finding;
    finding.rule = "panned_coarser";
    finding.severity = Severity::caution;
    finding.sample = scene.record.sample.id;
    finding.seen = fmt::format("Pan test {} states a grind of {}; the same split sieved ({}) has P80 {}.",
                               scene.record.portion_label(entry.test.portion), stated, size->label, found);
    finding.why = "What the pan caught would be set down to a finer grind than was panned.";
    finding.to_do = "Take the grind from the sieve analysis, or note why the two differ.";
    finding.source = "common practice, no source; more than a quarter coarser";
    finding.evidence = {{"grind stated", stated, history::Entity::pan_test, entry.test.id.value},
                        {"P80", found, history::Entity::sieve_analysis, beside->id.value}};
    return finding;
  }
  return std::nullopt;
}

}  // namespace prillbook::findings
