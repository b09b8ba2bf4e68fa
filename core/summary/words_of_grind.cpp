// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/summary/words.h"
#include "core/summary/words_of_sizes.h"

namespace prillbook::summary {
namespace {

constexpr const char* not_freed = "Gold in tellurides and fine gold in sulphides does not come free by grinding.";

Sentences after_a_study(const results::GrindStudy& study, DecimalMark mark) {
  const results::GrindStep& last = study.steps.back();
  const std::string step = grind_step_words(study, last, mark);
  switch (last.verdict) {
    case results::GrindVerdict::more:
      return {"Yes: the last finer grind freed more gold, and a finer one still may.", step, not_freed};
    case results::GrindVerdict::less:
      return {"No: the last finer grind caught less. Gold ground too fine floats off the pan.", step};
    case results::GrindVerdict::not_shown:
      return {"These figures do not ask for it: the last finer grind did not show more.", step};
    case results::GrindVerdict::not_determined: return {"That can not be told: an uncertainty is missing.", step};
  }
  return {};
}

}  // namespace

Sentences a_finer_grind(const SummarySample& sample, DecimalMark mark) {
  const results::SampleResult& result = sample.result;
  if (!result.leading_pan) return {};
  if (!result.grinds.steps.empty()) return after_a_study(result.grinds, mark);
  if (!result.comparison) return {"One pan test alone does not tell: it takes a figure for all the gold in the rock."};
  switch (result.comparison->gold.verdict) {
    case Verdict::gold_left_behind:
      return {
          "Yes, a trial is worth it: gold stayed behind at this grind, and a second pan test of a finer one shows whether "
          "grinding frees it.",
          not_freed};
    case Verdict::no_gap_shown: return {"These figures do not ask for it: no gold left behind is shown at this grind."};
    case Verdict::pan_exceeds_fire:
      return {
          "These figures do not tell: the pan caught more than the other portion held. More portions come before a finer grind."};
    case Verdict::not_determined: return {"That can not be told: an uncertainty is missing."};
  }
  return {};
}

}  // namespace prillbook::summary
