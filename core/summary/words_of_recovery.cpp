// SPDX-License-Identifier: GPL-3.0-or-later
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

std::string percent(double ratio, const Speech& say) { return rounded(100 * ratio, 0, say) + " %"; }

std::string grams_a_tonne(const Grade& value, const std::optional<Grade>& lo, const std::optional<Grade>& hi, const Speech& say) {
  const auto g_t = [](const std::optional<Grade>& grade) {
    return grade ? std::optional(grade->in(unit::gram_per_tonne)) : std::nullopt;
  };
  return with_unit(figure(value.in(unit::gram_per_tonne), g_t(lo), g_t(hi), unit::gram_per_tonne.symbol, {}, say));
}

std::optional<Grade> negative(const std::optional<Grade>& grade) { return grade ? std::optional(-*grade) : std::nullopt; }

std::string grind_words(const TestResult& pan, const SummarySample& sample, const Speech& say) {
  const auto* entry = pan_entry(sample.record, pan.pan_test);
  return entry && entry->test.grind ? say("pan.grind", {{"grind", as_typed(*entry->test.grind, say)}}) : "";
}

std::string together_words(const PanBalance& balance, const Speech& say) {
  const wording::Named head{"head", with_unit(grade_figure(balance.calculated_head, unit::gram_per_tonne, say))};
  if (!balance.closure) return say("pan.together", {head});
  return say("pan.together_closed", {head, {"closure", percent(*balance.closure, say)}});
}

void add_balance(Sentences& out, const PanBalance& balance, const Speech& say) {
  out.push_back(together_words(balance, say));
  if (balance.recovery_of_head) {
    const wording::Named free{"free", percent(*balance.recovery_of_head, say)};
    out.push_back(balance.gravity_recovery
                      ? say("pan.free_and_remainder", {free, {"both", percent(*balance.gravity_recovery, say)}})
                      : say("pan.free", {free}));
  }
  for (const BalanceWarning warning : balance.warnings)
    out.push_back(warning == BalanceWarning::remainder_missing ? say("pan.remainder_missing") : say("pan.too_heavy"));
}

std::string advice(const SummarySample& sample, const Speech& say) {
  return say("pan.advice", {{"assay", sample.result.comparison->balance ? "" : say("pan.advice_assay")}});
}

void add_pan_alone(Sentences& out, const TestResult& pan, const SummarySample& sample, const Speech& say) {
  const wording::Named grind{"grind", grind_words(pan, sample, say)};
  out.push_back(pan.grade->gold->value > Grade() ? say("pan.alone", {grind}) : say("pan.alone_none", {grind}));
}

void add_comparison(Sentences& out, const TestResult& pan, const SummarySample& sample, const Speech& say) {
  const Comparison& comparison = *sample.result.comparison;
  const wording::Named grind{"grind", grind_words(pan, sample, say)};
  const wording::Named gold{"gold", with_unit(grade_figure(*pan.grade->gold, unit::gram_per_tonne, say))};
  out.push_back(comparison.gold.recovery ? say("pan.share", {{"share", recovery_words(comparison.gold, say)}, gold, grind})
                                         : say("pan.no_share", {gold, grind}));
  out.push_back(verdict_sentence(comparison, say));
  if (comparison.balance) add_balance(out, *comparison.balance, say);
  if (comparison.gold.verdict == Verdict::gold_left_behind) out.push_back(advice(sample, say));
}

std::string basis_words(const Comparison& comparison, const Speech& say) {
  if (comparison.basis == VerdictBasis::weighing) return say("basis.weighing");
  return comparison.basis == VerdictBasis::weighing_and_sampling ? say("basis.sampling") : say("basis.none");
}

}  // namespace

std::string recovery_words(const Gap& gap, const Speech& say) {
  const Figure figure = *recovery_figure(gap, say);
  if (!figure.value) return with_unit(figure);
  const std::string share = marked(figure.digits, say) + " %", lo = marked(figure.lo_digits, say);
  if (!figure.lo) return share;
  if (!figure.hi) return say("recovery.open", {{"share", share}, {"lo", lo}});
  return say("recovery.range", {{"share", share}, {"lo", lo}, {"hi", marked(figure.hi_digits, say)}});
}

std::string verdict_sentence(const Comparison& comparison, const Speech& say) {
  const Gap& gap = comparison.gold;
  const wording::Named basis{"basis", basis_words(comparison, say)};
  switch (gap.verdict) {
    case Verdict::gold_left_behind: return say("verdict.left", {{"gap", grams_a_tonne(gap.value, gap.lo, gap.hi, say)}, basis});
    case Verdict::no_gap_shown: return say("verdict.no_gap", {basis});
    case Verdict::pan_exceeds_fire:
      return say("verdict.above", {{"gap", grams_a_tonne(-gap.value, negative(gap.hi), negative(gap.lo), say)}, basis});
    case Verdict::not_determined: return say("verdict.open", {basis});
  }
  return "";
}

Sentences what_the_pan_caught(const SummarySample& sample, const Speech& say) {
  Sentences out;
  const TestResult* pan = leading_pan(sample.result);
  if (!pan) return out;
  if (sample.result.comparison)
    add_comparison(out, *pan, sample, say);
  else
    add_pan_alone(out, *pan, sample, say);
  if (sample.result.comparison_error)
    out.push_back(say("pan.not_compared", {{"detail", detail_of(*sample.result.comparison_error, say)}}));
  if (sample.result.pan.size() > 1) out.push_back(say("pan.several"));
  return out;
}

std::string verdict_in_short(const SummarySample& sample, const Speech& say) {
  const auto& comparison = sample.result.comparison;
  if (!comparison) return "";
  const auto recovery = recovery_figure(comparison->gold, say);
  const std::string caught =
      recovery ? say("glance.caught", {{"share", recovery->value ? marked(recovery->digits, say) + " %" : with_unit(*recovery)}})
               : "";
  switch (comparison->gold.verdict) {
    case Verdict::gold_left_behind: return say("glance.left", {{"caught", caught}});
    case Verdict::no_gap_shown: return caught.empty() ? say("glance.no_gap") : say("glance.caught_no_gap", {{"caught", caught}});
    case Verdict::pan_exceeds_fire: return say("glance.above");
    case Verdict::not_determined: return caught;
  }
  return "";
}

}  // namespace prillbook::summary
