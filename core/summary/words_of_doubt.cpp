// SPDX-License-Identifier: GPL-3.0-or-later
#include <fmt/format.h>

#include "core/assay/rounding.h"
#include "core/summary/words.h"

namespace prillbook::summary {
namespace {

struct SourceWords {
  std::string_view from, remedy;
};

SourceWords words_of(UncertaintySource source) {
  switch (source) {
    case UncertaintySource::bead_step:
      return {"the step of the balance that weighed the bead", "A larger portion or a finer balance would narrow it."};
    case UncertaintySource::bead_repeats:
      return {"the scatter of repeat weighings of the bead", "More weighings or a larger portion would narrow it."};
    case UncertaintySource::portion_step:
      return {"the step of the balance that weighed the portion", "A larger portion would narrow it."};
    case UncertaintySource::fineness: return {"the fineness of the bead", "Parting the bead would narrow it."};
    case UncertaintySource::parted_gold:
      return {"the weighing of the parted gold", "A larger portion or a finer balance would narrow it."};
    case UncertaintySource::slag: return {"the metal recovered from the slag", ""};
    case UncertaintySource::cupel: return {"the metal recovered from the cupel", ""};
    case UncertaintySource::collector: return {"the weighing of the collector silver", ""};
    case UncertaintySource::collector_loss:
      return {"how much of the collector silver was lost in the furnace", "A charge without collector silver would avoid it."};
    case UncertaintySource::sampling: return {"the grains of gold, of which one portion holds more than another", ""};
    case UncertaintySource::between_charges:
      return {"the differences between the charges, as coarse gold makes them", "More charges would narrow it."};
  }
  return {};
}

std::string source_sentence(const MeasuredGrade& grade, std::string_view whose, DecimalMark mark) {
  const auto budget = budget_of(grade.parts);
  if (budget.empty())
    return fmt::format("For the {} no interval can be given: the step of the balance is not in the notebook.", whose);
  const BudgetLine& first = budget.front();
  const SourceWords words = words_of(first.source);
  const char* share = first.share_pct > 99.5 ? "Nearly all" : first.share_pct >= 50 ? "Most" : "The largest part";
  std::string sentence = fmt::format("{} of the doubt in the {} comes from {}", share, whose, words.from);
  if (first.share_pct <= 99.5) sentence += fmt::format(" ({} % of the variance)", rounded(first.share_pct, 0, mark));
  return fmt::format("{}.{}{}", sentence, words.remedy.empty() ? "" : " ", words.remedy);
}

std::string sampling_words(const SummarySample& sample, DecimalMark mark) {
  const auto& comparison = sample.result.comparison;
  if (comparison && comparison->basis == VerdictBasis::weighing_and_sampling && sample.result.grain)
    return fmt::format(
        "Gold comes in grains, and one portion can hold a few more than another. With grains of {} µm taken as the largest "
        "seen, that is the thin longer line in the picture; the verdict allows for it.",
        written(sample.result.grain->in(unit::micrometre), {}, 1.0, mark));
  return "Sampling not judged: gold comes in grains, and how far one portion may differ from the rest of the bag for that reason "
         "is not part of the interval.";
}

}  // namespace

std::vector<DoubtLine> doubt_lines(const MeasuredGrade& grade) {
  std::vector<DoubtLine> lines;
  for (const BudgetLine& line : budget_of(grade.parts)) {
    const SourceWords words = words_of(line.source);
    lines.push_back({std::string(words.from), std::string(words.remedy), line.share_pct});
  }
  return lines;
}

Sentences how_sure_we_are(const SummarySample& sample, DecimalMark mark) {
  const auto& result = sample.result;
  const MeasuredGrade* fire = result.fire.gold.mean ? &*result.fire.gold.mean : nullptr;
  const MeasuredGrade* pan = result.leading_pan ? &*result.pan[*result.leading_pan].grade->gold : nullptr;
  if (!fire && !pan) return {};
  Sentences out;
  if ((fire && fire->spread) || (pan && pan->spread))
    out.push_back("The figure after ± (or the range in brackets) is meant to hold the true value 19 times in 20 (95 %).");
  if (fire) out.push_back(source_sentence(*fire, "fire assay", mark));
  if (pan) out.push_back(source_sentence(*pan, "pan test", mark));
  out.push_back(sampling_words(sample, mark));
  return out;
}

}  // namespace prillbook::summary
