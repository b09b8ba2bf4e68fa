// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/summary/words_of_sizes.h"

#include <fmt/format.h>

#include <cmath>

#include "core/assay/rounding.h"
#include "core/units/units.h"

namespace prillbook::summary {
namespace {

using results::SizeResult;
using results::SizeState;

std::string pct(double value, int decimals, const Speech& say) { return rounded(value, decimals, say) + " %"; }

std::string three_digits(double value, const Speech& say) {
  if (!(value > 0)) return "0";
  return rounded(value, std::min(12, 2 - int(std::floor(std::log10(value)))), say);
}

std::string where_words(const SizeResult& size, const Speech& say) {
  const auto& rows = size.curve->rows;
  const bool above = size.curve->p80.status == SizeStatus::above_top_sieve;
  const SieveRow& row = above ? rows.front() : rows.back();
  const wording::Named sieve{"sieve", opening_in_words(row.opening, say)}, percent{"percent", pct(row.passing_pct, 1, say)};
  return above ? say("size.above", {sieve, percent}) : say("size.under", {sieve, percent});
}

std::string waits_words(const SizeResult& size, const Speech& say) {
  if (size.waits_for.size() > 3) return say("size.masses", {{"count", std::to_string(size.waits_for.size())}});
  std::string words;
  for (std::size_t i = 0; i < size.waits_for.size(); ++i)
    words += (i == 0 ? "" : i + 1 == size.waits_for.size() ? say("note.and") : ", ") + say.again("waits", size.waits_for[i]);
  return words;
}

std::string trust_words(const FitJudgement& judgement, const Speech& say) {
  const std::string worst = rounded(judgement.worst_pct, 1, say);
  switch (judgement.trust) {
    case FitTrust::too_few: return "drawn through so few sieves that almost any line fits; no reason to trust it";
    case FitTrust::good: return fmt::format("within {} points of per cent of every sieve: it may stand for the curve", worst);
    case FitTrust::fair: return fmt::format("up to {} points of per cent off a sieve: good for a rough figure only", worst);
    case FitTrust::poor: return fmt::format("up to {} points of per cent off a sieve: do not trust it", worst);
  }
  return "";
}

std::string grams(Mass mass, const Speech& say) {
  const auto words = portions::in_words(mass);
  return marked(words.number, say) + " " + std::string(words.unit);
}

}  // namespace

Sentences size_words(const SizeResult& size, const Speech& say) {
  switch (size.state) {
    case SizeState::waiting: return {say("size.waits", {{"what", waits_words(size, say)}})};
    case SizeState::spoiled: return {say("size.spoiled", {{"reason", size.reason}})};
    case SizeState::refused:
      return {say("size.refused", {{"detail", size.error && !say.translated() ? size.error->detail : say("size.contradict")}})};
    case SizeState::done: break;
  }
  Sentences out;
  const PassingSize &p80 = size.curve->p80, &p50 = size.curve->p50;
  const auto named = [&](const char* name, const PassingSize& at) {
    return wording::Named{name, at.size ? size_in_words(*at.size, say) : ""};
  };
  if (p80.size)
    out.push_back(p50.size ? say("size.both", {named("p80", p80), named("p50", p50)}) : say("size.p80", {named("p80", p80)}));
  else
    out.push_back(where_words(size, say));
  if (!p80.size && p50.size) out.push_back(say("size.p50", {named("p50", p50)}));
  if (p80.size && p80.bracket_ratio > 2 + 1e-9) out.push_back(say("size.apart", {{"times", rounded(p80.bracket_ratio, 1, say)}}));
  return out;
}

std::string size_in_short(const SizeResult& size, const Speech& say) {
  if (size.state == SizeState::waiting) return say("size.waits_short", {{"what", waits_words(size, say)}});
  if (size.state == SizeState::spoiled) return say("size.spoiled_short");
  if (size.state == SizeState::refused) return say("size.contradict_short");
  std::string words;
  if (size.curve->p80.size) words = "P80 " + size_in_words(*size.curve->p80.size, say);
  if (size.curve->p50.size) words += (words.empty() ? "P50 " : ", P50 ") + size_in_words(*size.curve->p50.size, say);
  return words.empty() ? say("size.outside") : words;
}

std::string loss_words(const SizeResult& size, const Speech& say) {
  if (!size.curve) return "";
  const double loss = size.curve->loss_pct;
  return fmt::format("{} found again: {} {}, the limit is {}.", grams(size.curve->total, say), pct(std::abs(loss), 2, say),
                     loss < 0 ? "gained" : "lost", pct(size.loss_limit_pct, 2, say));
}

Sentences law_words(const SizeResult& size, const Speech& say) {
  Sentences out;
  if (const auto& law = size.gaudin_schuhmann)
    out.push_back(fmt::format("Gaudin–Schuhmann: m {}, k {}, r² {}; {}.", three_digits(law->law.slope, say),
                              size_in_words(law->law.size, say), rounded(law->law.r2, 3, say), trust_words(law->judgement, say)));
  if (const auto& law = size.rosin_rammler)
    out.push_back(fmt::format("Rosin–Rammler: n {}, x′ {}, r² {}; {}.", three_digits(law->law.slope, say),
                              size_in_words(law->law.size, say), rounded(law->law.r2, 3, say), trust_words(law->judgement, say)));
  if (out.empty() && size.state == SizeState::done) out.push_back("Too few sieves between 0 and 100 % passing for a law.");
  return out;
}

Sentences metal_words(const SizeResult& size, const Speech& say) {
  if (size.metal.empty()) return {};
  if (!size.metal_complete) {
    std::string missing;
    for (const results::FractionMetal& one : size.metal)
      if (!one.gold && one.mass_pct > 0) missing += (missing.empty() ? "" : ", ") + one.size;
    return {say("size.no_metal", {{"missing", missing}})};
  }
  const results::FractionMetal& most = size.metal[*size.richest];
  return {say("size.richest", {{"size", most.size}, {"gold", pct(*most.gold_pct, 0, say)}, {"mass", pct(most.mass_pct, 0, say)}}),
          say("size.built_up", {{"gold", three_digits(size.built_up->in(unit::gram_per_tonne), say)}})};
}

std::string grind_point_words(const results::GrindPoint& point, const Speech& say) {
  const wording::Named p80{"p80", size_in_words(point.p80, say)};
  const wording::Named gold{"gold", with_unit(grade_figure(point.gold, unit::gram_per_tonne, say))};
  if (!point.recovery) return say("size.caught", {p80, gold});
  Gap gap;
  gap.recovery = point.recovery;
  gap.recovery_interval = point.interval;
  return say("size.caught_share", {p80, gold, {"share", recovery_words(gap, say)}});
}

namespace {

std::string judged_words(const results::GrindStep& step, const Speech& say) {
  if (step.verdict == results::GrindVerdict::not_determined) return say("size.not_told");
  const wording::Named sampling{"sampling", step.basis == VerdictBasis::weighing ? say("size.unsampled") : say("size.sampled")};
  return step.verdict == results::GrindVerdict::not_shown ? say("size.not_beyond", {sampling}) : say("size.beyond", {sampling});
}

}  // namespace

std::string grind_step_words(const results::GrindStudy& study, const results::GrindStep& step, const Speech& say) {
  const bool less = step.gain < Grade();
  const auto g_t = [less](const std::optional<Grade>& grade) {
    return grade ? std::optional((less ? -*grade : *grade).in(unit::gram_per_tonne)) : std::nullopt;
  };
  const auto lo = less ? step.hi : step.lo, hi = less ? step.lo : step.hi;
  const Figure gain =
      figure(std::abs(step.gain.in(unit::gram_per_tonne)), g_t(lo), g_t(hi), unit::gram_per_tonne.symbol, {}, say);
  const wording::Named coarse{"coarse", size_in_words(study.points[step.coarse].p80, say)},
      fine{"fine", size_in_words(study.points[step.fine].p80, say)}, difference{"difference", with_unit(gain)},
      judged{"judged", judged_words(step, say)};
  return less ? say("size.step_less", {coarse, fine, difference, judged})
              : say("size.step_more", {coarse, fine, difference, judged});
}

Sentences grind_words(const results::GrindStudy& study, const Speech& say) {
  Sentences out;
  for (const results::GrindStep& step : study.steps) out.push_back(grind_step_words(study, step, say));
  return out;
}

}  // namespace prillbook::summary
