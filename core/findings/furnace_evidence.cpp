// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/findings/furnace_evidence.h"

#include "core/assay/rounding.h"

namespace prillbook::findings {

Finding about_furnace(const Scene& scene, const char* rule, Severity severity) {
  Finding finding;
  finding.rule = rule;
  finding.severity = severity;
  finding.sample = scene.record.sample.id;
  return finding;
}

Evidence of_charge(const results::FireEntry& entry, std::string what, std::string figure) {
  return {std::move(what), std::move(figure), history::Entity::charge, entry.charge.id.value};
}

std::string grams_in_words(Mass mass, DecimalMark mark) { return fixed(mass.in(unit::gram), 1, mark) + " g"; }

std::string milligrams_in_words(Mass mass, DecimalMark mark) {
  const double value = mass.in(unit::milligram);
  return fixed(value, value < 0.1 ? 4 : value < 10 ? 3 : 1, mark) + " mg";
}

std::string labelled(const Scene& scene, const results::FireEntry& entry) {
  return scene.record.portion_label(entry.charge.portion);
}

}  // namespace prillbook::findings
