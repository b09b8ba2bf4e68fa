// SPDX-License-Identifier: GPL-3.0-or-later
// What the rules about the furnace share.
#pragma once

#include <string>

#include "core/findings/finding.h"

namespace prillbook::findings {

Finding about_furnace(const Scene& scene, const char* rule, Severity severity);
Evidence of_charge(const results::FireEntry& entry, std::string what, std::string figure);
// "28.5 g", "0.022 mg": two digits that count below 1, one decimal above, by the lab's mark.
std::string grams_in_words(Mass mass, DecimalMark mark);
std::string milligrams_in_words(Mass mass, DecimalMark mark);
std::string labelled(const Scene& scene, const results::FireEntry& entry);  // "26-0003/2"

// The first finding that `find` makes of a charge that is not spoiled.
template <class Find>
std::optional<Finding> first_of_charges(const Scene& scene, Find&& find) {
  for (const results::FireEntry& entry : scene.record.charges) {
    if (entry.charge.spoiled) continue;
    if (std::optional<Finding> finding = find(entry)) return finding;
  }
  return std::nullopt;
}

}  // namespace prillbook::findings
