// SPDX-License-Identifier: GPL-3.0-or-later
// A sieve held more at the end than its cloth can pass.
#include <fmt/format.h>

#include <algorithm>

#include "core/assay/rounding.h"
#include "core/findings/sieve_evidence.h"

namespace prillbook::findings {
namespace {

std::string whole_grams(Mass mass, DecimalMark mark) {
  return rounded(mass.in(unit::gram), mass < Mass(100, unit::gram) ? 1 : 0, mark) + " g";
}

}  // namespace

std::optional<Finding> sieve_overload(const Scene& scene) {
  return first_of_analyses(scene, [&](const sieves::Analysis&, const results::SizeResult& size) -> std::optional<Finding> {
    if (size.overloads.empty()) return std::nullopt;
    const DecimalMark mark = scene.record.settings.decimal_mark;
    const auto worst = std::max_element(size.overloads.begin(), size.overloads.end(),
                                        [](const auto& a, const auto& b) { return a.retained / a.limit < b.retained / b.limit; });
    Finding finding = about_sieves(scene, "sieve_overload", Severity::caution);
    finding.seen = fmt::format("{} lay on {} in {}; such a sieve carries {}.", whole_grams(worst->retained, mark),
                               opening_in_words(worst->opening, mark), size.label, whole_grams(worst->limit, mark));
    finding.why = "Grains that lie on grains do not find the openings: the sieve keeps what should have passed.";
    finding.to_do = "Sieve it in two parts and add the masses, or put a sieve of the next coarser size above it.";
    finding.source = "ASTM C136, 8.3: 7 kg/m² below 4.75 mm, from there 2.5 kg/m² for each mm of opening";
    for (const results::Overload& one : size.overloads)
      finding.evidence.push_back(
          {opening_in_words(one.opening, mark), whole_grams(one.retained, mark), history::Entity::sieve_cut, one.cut.value});
    finding.evidence.push_back(of_analysis(size, "analysis", size.label));
    return finding;
  });
}

}  // namespace prillbook::findings
