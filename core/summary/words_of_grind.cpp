// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/summary/words.h"
#include "core/summary/words_of_sizes.h"

namespace prillbook::summary {
namespace {

Sentences after_a_study(const results::GrindStudy& study, const Speech& say) {
  const results::GrindStep& last = study.steps.back();
  const std::string step = grind_step_words(study, last, say);
  switch (last.verdict) {
    case results::GrindVerdict::more: return {say("grind.more"), step, say("grind.not_freed")};
    case results::GrindVerdict::less: return {say("grind.less"), step};
    case results::GrindVerdict::not_shown: return {say("grind.not_shown"), step};
    case results::GrindVerdict::not_determined: return {say("grind.unknown"), step};
  }
  return {};
}

}  // namespace

Sentences a_finer_grind(const SummarySample& sample, const Speech& say) {
  const results::SampleResult& result = sample.result;
  if (!result.leading_pan) return {};
  if (!result.grinds.steps.empty()) return after_a_study(result.grinds, say);
  if (!result.comparison) return {say("grind.one_test")};
  switch (result.comparison->gold.verdict) {
    case Verdict::gold_left_behind: return {say("grind.trial"), say("grind.not_freed")};
    case Verdict::no_gap_shown: return {say("grind.no_gap")};
    case Verdict::pan_exceeds_fire: return {say("grind.above")};
    case Verdict::not_determined: return {say("grind.unknown")};
  }
  return {};
}

}  // namespace prillbook::summary
