// SPDX-License-Identifier: GPL-3.0-or-later
// The sieves and the pan together hold more than was sieved.
#include <fmt/format.h>

#include "core/findings/sieve_evidence.h"

namespace prillbook::findings {
namespace {

struct SieveSum {
  Mass found, portion;
};

// nullopt while something is not weighed.
std::optional<SieveSum> sum_of(const results::SampleRecord& record, const sieves::Analysis& analysis) {
  const auto input = results::sieve_input(record, analysis);
  if (!input) return std::nullopt;
  Mass found = input->pan;
  for (const SieveCut& cut : input->cuts) found += cut.retained;
  return SieveSum{found, input->portion};
}

}  // namespace

std::optional<Finding> sieve_sum_above_portion(const Scene& scene) {
  return first_of_analyses(
      scene, [&](const sieves::Analysis& analysis, const results::SizeResult& size) -> std::optional<Finding> {
        const auto sum = sum_of(scene.record, analysis);
        const bool refused = size.state == results::SizeState::refused;
        const bool beyond = size.curve && -size.curve->loss_pct > size.loss_limit_pct + 1e-9;
        if (!sum || !(refused || beyond) || sum->found <= sum->portion) return std::nullopt;
        const DecimalMark mark = scene.record.settings.decimal_mark;
        const double gain_pct = 100 * ((sum->found - sum->portion) / sum->portion);
        Finding finding = about_sieves(scene, "sieve_sum_above_portion", refused ? Severity::stop : Severity::caution);
        finding.seen = fmt::format("The sieves and the pan of {} together hold {} more than was sieved{}.", size.label,
                                   per_cent(gain_pct, mark), refused ? ", too much for a curve" : "");
        finding.why =
            "Rock does not grow in a sieve: a mass was misread, a sieve still held another sample, or the portion was not "
            "weighed dry.";
        finding.to_do =
            "Compare the masses with the bench sheet, and weigh the sieves empty. Correct the slip, or sieve another portion.";
        finding.source = "ASTM C136: the sum agrees with the mass before within 0.3 %";
        finding.evidence = {of_analysis(size, "gain", per_cent(gain_pct, mark))};
        return finding;
      });
}

}  // namespace prillbook::findings
