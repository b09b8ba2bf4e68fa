// SPDX-License-Identifier: GPL-3.0-or-later
// A sieve in the midst of the stack has no mass, while the pan below has one.
#include <fmt/format.h>

#include <algorithm>

#include "core/findings/sieve_evidence.h"
#include "core/findings/wording.h"

namespace prillbook::findings {
namespace {

// Those passed over: a coarser one is weighed. A single one left of all counts as well, wherever it is.
std::vector<Opening> passed_over(const sieves::Analysis& analysis) {
  std::vector<Opening> open, passed;
  bool weighed_above = false;
  for (const sieves::Cut& cut : analysis.cuts) {
    if (cut.is_pan()) continue;
    weighed_above = weighed_above || cut.retained;
    if (cut.retained) continue;
    open.push_back(*cut.opening);
    if (weighed_above) passed.push_back(*cut.opening);
  }
  return open.size() == 1 && analysis.cuts.size() > 2 ? open : passed;
}

// What is left of the portion for them; nullopt while that is not known.
std::optional<Mass> left_over(const results::SampleRecord& record, const sieves::Analysis& analysis) {
  const portions::Portion* portion = record.portion(analysis.portion);
  if (!portion || !portion->mass || portion->mass->state != readings::State::measured) return std::nullopt;
  Mass left = portion->mass->mass();
  for (const sieves::Cut& cut : analysis.cuts)
    if (cut.retained && cut.retained->state == readings::State::measured) left = left - cut.retained->mass();
  return left;
}

std::string balance_in_words(Mass left, Mass portion, double limit_pct) {
  const bool nothing = !(left > portion * (limit_pct / 100));
  return nothing ? " Nothing is wanting to the portion." : fmt::format(" {} is wanting to the portion.", mass_in_words(left));
}

}  // namespace

std::optional<Finding> sieve_not_weighed(const Scene& scene) {
  return first_of_analyses(
      scene, [&](const sieves::Analysis& analysis, const results::SizeResult& size) -> std::optional<Finding> {
        const bool pan_weighed = !analysis.cuts.empty() && analysis.cuts.back().is_pan() && analysis.cuts.back().retained;
        if (!pan_weighed) return std::nullopt;
        const auto passed = passed_over(analysis);
        if (passed.empty()) return std::nullopt;
        const std::string sizes = joined(passed, scene.record.settings.decimal_mark);
        Finding finding = about_sieves(scene, "sieve_not_weighed", Severity::note);
        finding.seen = fmt::format("Nothing is written for {} of {}, though the pan is weighed.", sizes, size.label);
        finding.evidence = {of_analysis(size, "not weighed", sizes)};
        if (const auto left = left_over(scene.record, analysis)) {
          const Mass portion = scene.record.portion(analysis.portion)->mass->mass();
          finding.seen += balance_in_words(*left, portion, scene.record.settings.sieve_loss_limit_pct);
          finding.evidence.push_back(of_analysis(size, "left of the portion", mass_in_words(*left)));
        }
        finding.why = "Until every sieve has its figure there is no curve and no P80.";
        finding.to_do = "Weigh what lay on it, or take the figure from the bench sheet; where nothing lay on it, write none.";
        finding.source = "common practice, no source";
        return finding;
      });
}

}  // namespace prillbook::findings
