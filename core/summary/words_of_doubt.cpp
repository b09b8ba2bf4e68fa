// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/assay/rounding.h"
#include "core/summary/words.h"

namespace prillbook::summary {
namespace {

struct SourceWords {
  std::string from, remedy;
};

SourceWords words_of(UncertaintySource source, const Speech& say) {
  switch (source) {
    case UncertaintySource::bead_step: return {say("doubt.bead_step"), say("remedy.bead_step")};
    case UncertaintySource::bead_repeats: return {say("doubt.bead_repeats"), say("remedy.bead_repeats")};
    case UncertaintySource::portion_step: return {say("doubt.portion_step"), say("remedy.portion_step")};
    case UncertaintySource::fineness: return {say("doubt.fineness"), say("remedy.fineness")};
    case UncertaintySource::parted_gold: return {say("doubt.parted_gold"), say("remedy.bead_step")};
    case UncertaintySource::slag: return {say("doubt.slag"), ""};
    case UncertaintySource::cupel: return {say("doubt.cupel"), ""};
    case UncertaintySource::collector: return {say("doubt.collector"), ""};
    case UncertaintySource::collector_loss: return {say("doubt.collector_loss"), say("remedy.collector_loss")};
    case UncertaintySource::sampling: return {say("doubt.sampling"), ""};
    case UncertaintySource::between_charges: return {say("doubt.between_charges"), say("remedy.between_charges")};
  }
  return {};
}

std::string source_sentence(const MeasuredGrade& grade, const std::string& of, const Speech& say) {
  const wording::Named whose{"whose", of};
  const auto budget = budget_of(grade.parts);
  if (budget.empty()) return say("doubt.no_interval", {whose});
  const BudgetLine& first = budget.front();
  const SourceWords words = words_of(first.source, say);
  const wording::Named source{"source", words.from}, remedy{"remedy", words.remedy.empty() ? "" : " " + words.remedy};
  if (first.share_pct > 99.5) return say("doubt.all", {whose, source, remedy});
  const wording::Named percent{"percent", rounded(first.share_pct, 0, say)};
  return first.share_pct >= 50 ? say("doubt.most", {whose, source, percent, remedy})
                               : say("doubt.largest", {whose, source, percent, remedy});
}

std::string sampling_words(const SummarySample& sample, const Speech& say) {
  const auto& comparison = sample.result.comparison;
  if (comparison && comparison->basis == VerdictBasis::weighing_and_sampling && sample.result.grain)
    return say("doubt.grains", {{"grain", written(sample.result.grain->in(unit::micrometre), {}, 1.0, say)}});
  return say("doubt.not_judged");
}

}  // namespace

std::vector<DoubtLine> doubt_lines(const MeasuredGrade& grade) {
  std::vector<DoubtLine> lines;
  for (const BudgetLine& line : budget_of(grade.parts)) {
    SourceWords words = words_of(line.source, DecimalMark::point);
    lines.push_back({std::move(words.from), std::move(words.remedy), line.share_pct});
  }
  return lines;
}

Sentences how_sure_we_are(const SummarySample& sample, const Speech& say) {
  const auto& result = sample.result;
  const MeasuredGrade* fire = result.fire.gold.mean ? &*result.fire.gold.mean : nullptr;
  const MeasuredGrade* pan = result.leading_pan ? &*result.pan[*result.leading_pan].grade->gold : nullptr;
  if (!fire && !pan) return {};
  Sentences out;
  if ((fire && fire->spread) || (pan && pan->spread)) out.push_back(say("doubt.nineteen"));
  if (fire) out.push_back(source_sentence(*fire, say("doubt.of_fire"), say));
  if (pan) out.push_back(source_sentence(*pan, say("doubt.of_pan"), say));
  out.push_back(sampling_words(sample, say));
  return out;
}

}  // namespace prillbook::summary
