// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/findings/charge_pairs.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "core/assay/grain_sampling.h"
#include "core/findings/furnace_evidence.h"
#include "core/findings/wording.h"

namespace prillbook::findings {
namespace {

constexpr double times_explained = 3;  // common practice, no source

// Relative variance of the number of grains in a charge; 0 where their size is not known.
double grain_variance(const Scene& scene, Grade gold, Mass portion) {
  if (!scene.result.grain || !(gold > Grade())) return 0;
  const double grains = expected_grains(gold, portion, *scene.result.grain);
  return grains > 0 ? 1 / grains : 0;
}

// Declared duplicates and the charges of a control material have limits and findings of their own.
bool is_ordinary(const Scene& scene, ChargeId id) {
  const auto& all = scene.record.charges;
  const auto found = std::find_if(all.begin(), all.end(), [&](const results::FireEntry& entry) { return entry.charge.id == id; });
  return found == all.end() || found->charge.role == controls::Role::ordinary;
}

}  // namespace

std::optional<ChargePair> widest_pair(const Scene& scene, std::optional<MeasuredGrade> GradeResult::*metal) {
  std::optional<ChargePair> widest;
  const auto& tests = scene.result.fire.tests;
  const auto& gold = scene.result.fire.gold.mean;
  for (std::size_t i = 0; i < tests.size(); ++i)
    for (std::size_t j = i + 1; j < tests.size(); ++j) {
      if (tests[i].state != results::TestState::done || tests[j].state != results::TestState::done) continue;
      if (!is_ordinary(scene, tests[i].charge) || !is_ordinary(scene, tests[j].charge)) continue;
      const auto &one = (*tests[i].grade).*metal, &other = (*tests[j].grade).*metal;
      if (!one || !other) continue;
      const double a = one->g_t(), b = other->g_t(), mean = (a + b) / 2;
      if (!(mean > 0)) continue;
      const Grade rock = gold ? gold->value : one->value;
      const double u_a = combined_u(one->parts), u_b = combined_u(other->parts);
      const double luck =
          grain_variance(scene, rock, tests[i].grade->dry_portion) + grain_variance(scene, rock, tests[j].grade->dry_portion);
      const double explained = std::sqrt(u_a * u_a + u_b * u_b + luck * mean * mean);
      const double apart_pct = 100 * std::abs(a - b) / mean;
      if (apart_pct <= scene.record.settings.duplicate_limit_pct || std::abs(a - b) <= times_explained * explained) continue;
      if (!widest || apart_pct > widest->apart_pct) widest = {&tests[i], &tests[j], *one, *other, apart_pct};
    }
  return widest;
}

Finding of_pair(const Scene& scene, const char* rule, const char* metal, const ChargePair& pair) {
  Finding finding = about_furnace(scene, rule, Severity::caution);
  const std::string first = grade_in_words(pair.one) + " g/t", second = grade_in_words(pair.other) + " g/t";
  finding.seen = fmt::format("{} found {} of {}, {} found {}: {} % of their mean apart.", pair.first->label, first, metal,
                             pair.second->label, second, two_digits(pair.apart_pct));
  finding.source = fmt::format("common practice, no source: {} % and three times what weighing and the grains explain",
                               two_digits(scene.record.settings.duplicate_limit_pct));
  finding.evidence = {{pair.first->label, first, history::Entity::charge, pair.first->charge.value},
                      {pair.second->label, second, history::Entity::charge, pair.second->charge.value}};
  return finding;
}

}  // namespace prillbook::findings
