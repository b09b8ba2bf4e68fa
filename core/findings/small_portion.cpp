// SPDX-License-Identifier: GPL-3.0-or-later
// A portion too small for the top size of the rock it was cut from.
#include <fmt/format.h>

#include "core/findings/finding.h"
#include "core/findings/wording.h"
#include "core/results/sampling.h"

namespace prillbook::findings {
namespace {

bool is_tested(std::string_view purpose) {
  return purpose == "pan" || purpose == "fire" || purpose == "duplicate" || purpose == "metallics";
}

}  // namespace

std::optional<Finding> small_portion(const Scene& scene) {
  const results::SampleRecord& record = scene.record;
  const Share wanted(record.settings.sampling_limit_pct, unit::percent);
  const portions::Portion* worst = nullptr;
  GyInput input;
  GyResult error;
  for (const portions::Portion& portion : record.portions) {
    if (!is_tested(portion.purpose) || !portion.mass || portion.mass->value <= 0) continue;
    const auto one = results::sampling_input(record, scene.result, portion);
    if (!one) continue;
    GyInput with_target = *one;
    with_target.target = wanted;
    const auto gy = gy_error(with_target);
    if (!gy || gy->relative_sd_pct <= wanted.in(unit::percent) || (worst && gy->relative_sd_pct <= error.relative_sd_pct))
      continue;
    worst = &portion;
    input = *one;
    error = *gy;
  }
  if (!worst) return std::nullopt;
  const std::string label = record.portion_label(worst->id);
  Finding finding;
  finding.rule = "small_portion";
  finding.severity = Severity::caution;
  finding.sample = record.sample.id;
  finding.seen =
      fmt::format("Portion {} of {} was cut from rock of {} µm top size: its sampling error is about {} %.", label,
                  mass_in_words(input.mass), two_digits(input.top_size.in(unit::micrometre)), two_digits(error.relative_sd_pct));
  finding.why = "Too few gold grains are in it to stand for the rest; a repeat may well differ by this much.";
  finding.to_do = fmt::format("Crush finer before the split, or take {} for {} %.", mass_in_words(*error.mass_for_target),
                              shortest(record.settings.sampling_limit_pct));
  finding.source = error.form + "; P. Gy, Chemom. Intell. Lab. Syst. 74 (2004)";
  finding.evidence = {
      {"mass", typed_with_unit(*worst->mass), history::Entity::portion, worst->id.value},
      {"top size, µm", two_digits(input.top_size.in(unit::micrometre)), history::Entity::portion, worst->id.value},
      {"grade, g/t", two_digits(input.grade.in(unit::gram_per_tonne)), history::Entity::sample, record.sample.id.value},
      {"size of gold, µm", two_digits(input.liberation.in(unit::micrometre)), history::Entity::sample, record.sample.id.value}};
  return finding;
}

}  // namespace prillbook::findings
