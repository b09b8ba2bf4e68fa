// SPDX-License-Identifier: GPL-3.0-or-later
#include <fmt/format.h>

#include "core/assay/rounding.h"
#include "core/summary/lines.h"
#include "core/summary/words.h"

namespace prillbook::summary {
namespace {

using results::SampleResult;
using results::TestResult;

const TestResult* leading_pan(const SampleResult& result) {
  return result.leading_pan ? &result.pan[*result.leading_pan] : nullptr;
}

std::string percent(double ratio, DecimalMark mark) { return rounded(100 * ratio, 0, mark) + " %"; }

std::string grams_a_tonne(const Grade& value, const std::optional<Grade>& lo, const std::optional<Grade>& hi, DecimalMark mark) {
  const auto g_t = [](const std::optional<Grade>& grade) {
    return grade ? std::optional(grade->in(unit::gram_per_tonne)) : std::nullopt;
  };
  return with_unit(figure(value.in(unit::gram_per_tonne), g_t(lo), g_t(hi), unit::gram_per_tonne.symbol, {}, mark));
}

std::optional<Grade> negative(const std::optional<Grade>& grade) { return grade ? std::optional(-*grade) : std::nullopt; }

std::string grind_words(const TestResult& pan, const SummarySample& sample, DecimalMark mark) {
  const auto* entry = pan_entry(sample.record, pan.pan_test);
  return entry && entry->test.grind ? fmt::format(" at a grind of 80 % through {}", as_typed(*entry->test.grind, mark)) : "";
}

void add_balance(Sentences& out, const PanBalance& balance, DecimalMark mark) {
  std::string words =
      fmt::format("Put together again, what the pan test gave (free gold, and what was found in what it left) makes {} of gold",
                  with_unit(grade_figure(balance.calculated_head, unit::gram_per_tonne, mark)));
  if (balance.closure) words += fmt::format(", {} of what fire assay found", percent(*balance.closure, mark));
  out.push_back(words + ".");
  if (balance.recovery_of_head) {
    words = fmt::format("Of that the free gold is {}", percent(*balance.recovery_of_head, mark));
    if (balance.gravity_recovery)
      words += fmt::format(", free gold and concentrate remainder together {}", percent(*balance.gravity_recovery, mark));
    out.push_back(words + ".");
  }
  for (const BalanceWarning warning : balance.warnings)
    out.push_back(warning == BalanceWarning::remainder_missing
                      ? "The concentrate remainder was not assayed; the gold that is missing may be in it."
                      : "Remainder and tail weigh more than the portion panned: a weighing or the moisture is in doubt.");
}

std::string advice(const SummarySample& sample) {
  std::string words = "Two things can hold gold back: it is still locked in the rock, or it was free and got lost.";
  if (!sample.result.comparison->balance) words += " A fire assay of the concentrate remainder and the tail would tell which.";
  return words +
         " A finer grind and a second pan test show whether grinding frees more; gold in tellurides and fine gold in "
         "sulphides does not come free by grinding.";
}

void add_pan_alone(Sentences& out, const TestResult& pan, const SummarySample& sample, DecimalMark mark) {
  const std::string grind = grind_words(pan, sample, mark);
  if (pan.grade->gold->value > Grade())
    out.push_back(fmt::format(
        "That is the gold that comes free by gravity{}; gold still locked in the rock does not show in a pan.", grind));
  else
    out.push_back(fmt::format("No gold was seen in the pan{}. Gold still locked in the rock does not show in a pan.", grind));
}

void add_comparison(Sentences& out, const TestResult& pan, const SummarySample& sample, DecimalMark mark) {
  const Comparison& comparison = *sample.result.comparison;
  const std::string grind = grind_words(pan, sample, mark);
  if (comparison.gold.recovery)
    out.push_back(fmt::format("The pan caught {} of the gold that fire assay found: {}{}.", recovery_words(comparison.gold, mark),
                              with_unit(grade_figure(*pan.grade->gold, unit::gram_per_tonne, mark)), grind));
  else
    out.push_back(fmt::format("The pan caught {}{}; fire assay saw no gold, so there is no share to give.",
                              with_unit(grade_figure(*pan.grade->gold, unit::gram_per_tonne, mark)), grind));
  out.push_back(verdict_sentence(comparison, mark));
  if (comparison.balance) add_balance(out, *comparison.balance, mark);
  if (comparison.gold.verdict == Verdict::gold_left_behind) out.push_back(advice(sample));
}

}  // namespace

std::string recovery_words(const Gap& gap, DecimalMark mark) {
  const Figure figure = *recovery_figure(gap, mark);
  if (!figure.value) return with_unit(figure);
  const std::string share = marked(figure.digits, mark) + " %", lo = marked(figure.lo_digits, mark);
  if (!figure.lo) return share;
  if (!figure.hi) return fmt::format("{} (at least {} %; an upper end can not be told)", share, lo);
  return fmt::format("{} (95 % interval {} to {} %)", share, lo, marked(figure.hi_digits, mark));
}

std::string verdict_sentence(const Comparison& comparison, DecimalMark mark) {
  const Gap& gap = comparison.gold;
  std::string words;
  switch (gap.verdict) {
    case Verdict::gold_left_behind:
      words = fmt::format("The pan left gold behind: fire assay found {} more than the pan caught",
                          grams_a_tonne(gap.value, gap.lo, gap.hi, mark));
      break;
    case Verdict::no_gap_shown:
      words = "Pan and fire assay agree as far as these figures can tell: no gold left behind is shown";
      break;
    case Verdict::pan_exceeds_fire:
      words = fmt::format(
          "The pan caught {} more than fire assay found, which is common where gold can be seen: "
          "one portion held a grain that the other did not",
          grams_a_tonne(-gap.value, negative(gap.hi), negative(gap.lo), mark));
      break;
    case Verdict::not_determined:
      words = "Whether the pan left gold behind is not determined: an uncertainty is missing on one side";
      break;
  }
  if (comparison.basis == VerdictBasis::weighing) return words + "; sampling not judged.";
  if (comparison.basis == VerdictBasis::weighing_and_sampling)
    return words + "; the chance that one portion holds more grains of gold than another is allowed for.";
  return words + ".";
}

Sentences what_the_pan_caught(const SummarySample& sample, DecimalMark mark) {
  Sentences out;
  const TestResult* pan = leading_pan(sample.result);
  if (!pan) return out;
  if (sample.result.comparison)
    add_comparison(out, *pan, sample, mark);
  else
    add_pan_alone(out, *pan, sample, mark);
  if (sample.result.comparison_error)
    out.push_back(fmt::format("Pan and fire assay could not be compared: {}.", sample.result.comparison_error->detail));
  if (sample.result.pan.size() > 1)
    out.push_back("Pan tests stand each at its own grind and are not averaged; this speaks of the newest that has a result.");
  return out;
}

std::string verdict_in_short(const SummarySample& sample, DecimalMark mark) {
  const auto& comparison = sample.result.comparison;
  if (!comparison) return "";
  const auto recovery = recovery_figure(comparison->gold, mark);
  const std::string caught =
      recovery ? (recovery->value ? marked(recovery->digits, mark) + " %" : with_unit(*recovery)) + " caught" : "";
  switch (comparison->gold.verdict) {
    case Verdict::gold_left_behind: return fmt::format("{}, gold left behind", caught);
    case Verdict::no_gap_shown: return caught.empty() ? "no gap shown" : fmt::format("{}, no gap shown", caught);
    case Verdict::pan_exceeds_fire: return "pan above fire";
    case Verdict::not_determined: return caught;
  }
  return "";
}

}  // namespace prillbook::summary
