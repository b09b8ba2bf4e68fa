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

std::string pct(double value, int decimals, DecimalMark mark) { return rounded(value, decimals, mark) + " %"; }

std::string three_digits(double value, DecimalMark mark) {
  if (!(value > 0)) return "0";
  return rounded(value, std::min(12, 2 - int(std::floor(std::log10(value)))), mark);
}

std::string where_words(const SizeResult& size, DecimalMark mark) {
  const auto& rows = size.curve->rows;
  if (size.curve->p80.status == SizeStatus::above_top_sieve)
    return fmt::format("P80 is not determined: it lies above the top sieve, {}, which {} pass.",
                       opening_in_words(rows.front().opening, mark), pct(rows.front().passing_pct, 1, mark));
  return fmt::format("P80 is not determined: it lies below the finest sieve, {}, which {} pass.",
                     opening_in_words(rows.back().opening, mark), pct(rows.back().passing_pct, 1, mark));
}

std::string waits_words(const SizeResult& size) {
  if (size.waits_for.size() > 3) return fmt::format("{} masses", size.waits_for.size());
  std::string words;
  for (std::size_t i = 0; i < size.waits_for.size(); ++i)
    words += (i == 0 ? "" : i + 1 == size.waits_for.size() ? " and " : ", ") + size.waits_for[i];
  return words;
}

std::string trust_words(const FitJudgement& judgement, DecimalMark mark) {
  const std::string worst = rounded(judgement.worst_pct, 1, mark);
  switch (judgement.trust) {
    case FitTrust::too_few: return "drawn through so few sieves that almost any line fits; no reason to trust it";
    case FitTrust::good: return fmt::format("within {} points of per cent of every sieve: it may stand for the curve", worst);
    case FitTrust::fair: return fmt::format("up to {} points of per cent off a sieve: good for a rough figure only", worst);
    case FitTrust::poor: return fmt::format("up to {} points of per cent off a sieve: do not trust it", worst);
  }
  return "";
}

std::string grams(Mass mass, DecimalMark mark) {
  const auto words = portions::in_words(mass);
  return marked(words.number, mark) + " " + std::string(words.unit);
}

}  // namespace

Sentences size_words(const SizeResult& size, DecimalMark mark) {
  switch (size.state) {
    case SizeState::waiting: return {fmt::format("Waits for {}.", waits_words(size))};
    case SizeState::spoiled: return {fmt::format("Spoiled: {}.", size.reason)};
    case SizeState::refused:
      return {fmt::format("No curve: {}.", size.error ? size.error->detail : "the masses contradict each other")};
    case SizeState::done: break;
  }
  Sentences out;
  const SieveResult& curve = *size.curve;
  if (curve.p80.size && curve.p50.size)
    out.push_back(fmt::format("80 % passes {} (P80), half passes {} (P50).", size_in_words(*curve.p80.size, mark),
                              size_in_words(*curve.p50.size, mark)));
  else if (curve.p80.size)
    out.push_back(fmt::format("80 % passes {} (P80).", size_in_words(*curve.p80.size, mark)));
  else
    out.push_back(where_words(size, mark));
  if (!curve.p80.size && curve.p50.size)
    out.push_back(fmt::format("Half passes {} (P50).", size_in_words(*curve.p50.size, mark)));
  if (curve.p80.size && curve.p80.bracket_ratio > 2 + 1e-9)
    out.push_back(fmt::format("The sieves either side of P80 differ {} times: it is a rough figure.",
                              rounded(curve.p80.bracket_ratio, 1, mark)));
  return out;
}

std::string size_in_short(const SizeResult& size, DecimalMark mark) {
  if (size.state == SizeState::waiting) return fmt::format("waits for {}", waits_words(size));
  if (size.state == SizeState::spoiled) return "spoiled";
  if (size.state == SizeState::refused) return "masses contradict each other";
  std::string words;
  if (size.curve->p80.size) words = "P80 " + size_in_words(*size.curve->p80.size, mark);
  if (size.curve->p50.size) words += (words.empty() ? "P50 " : ", P50 ") + size_in_words(*size.curve->p50.size, mark);
  return words.empty() ? "P80 outside the stack" : words;
}

std::string loss_words(const SizeResult& size, DecimalMark mark) {
  if (!size.curve) return "";
  const double loss = size.curve->loss_pct;
  return fmt::format("{} found again: {} {}, the limit is {}.", grams(size.curve->total, mark), pct(std::abs(loss), 2, mark),
                     loss < 0 ? "gained" : "lost", pct(size.loss_limit_pct, 2, mark));
}

Sentences law_words(const SizeResult& size, DecimalMark mark) {
  Sentences out;
  if (const auto& law = size.gaudin_schuhmann)
    out.push_back(fmt::format("Gaudin–Schuhmann: m {}, k {}, r² {}; {}.", three_digits(law->law.slope, mark),
                              size_in_words(law->law.size, mark), rounded(law->law.r2, 3, mark),
                              trust_words(law->judgement, mark)));
  if (const auto& law = size.rosin_rammler)
    out.push_back(fmt::format("Rosin–Rammler: n {}, x′ {}, r² {}; {}.", three_digits(law->law.slope, mark),
                              size_in_words(law->law.size, mark), rounded(law->law.r2, 3, mark),
                              trust_words(law->judgement, mark)));
  if (out.empty() && size.state == SizeState::done) out.push_back("Too few sieves between 0 and 100 % passing for a law.");
  return out;
}

Sentences metal_words(const SizeResult& size, DecimalMark mark) {
  if (size.metal.empty()) return {};
  if (!size.metal_complete) {
    std::string missing;
    for (const results::FractionMetal& one : size.metal)
      if (!one.gold && one.mass_pct > 0) missing += (missing.empty() ? "" : ", ") + one.size;
    return {fmt::format("Which size holds the gold can not be told yet: {} not assayed.", missing)};
  }
  const results::FractionMetal& most = size.metal[*size.richest];
  return {fmt::format("Of the sizes {} holds most gold: {} of it in {} of the mass.", most.size, pct(*most.gold_pct, 0, mark),
                      pct(most.mass_pct, 0, mark)),
          fmt::format("Put together from its sizes the portion holds {} g/t of gold.",
                      three_digits(size.built_up->in(unit::gram_per_tonne), mark))};
}

std::string grind_point_words(const results::GrindPoint& point, DecimalMark mark) {
  std::string words = fmt::format("P80 {}: {} caught", size_in_words(point.p80, mark),
                                  with_unit(grade_figure(point.gold, unit::gram_per_tonne, mark)));
  if (!point.recovery) return words + ".";
  Gap gap;
  gap.recovery = point.recovery;
  gap.recovery_interval = point.interval;
  return fmt::format("{}, {} of the gold that fire assay found.", words, recovery_words(gap, mark));
}

std::string grind_step_words(const results::GrindStudy& study, const results::GrindStep& step, DecimalMark mark) {
  const bool less = step.gain < Grade();
  const auto g_t = [less](const std::optional<Grade>& grade) {
    return grade ? std::optional((less ? -*grade : *grade).in(unit::gram_per_tonne)) : std::nullopt;
  };
  const auto &from = study.points[step.coarse], &to = study.points[step.fine];
  const auto lo = less ? step.hi : step.lo, hi = less ? step.lo : step.hi;
  const Figure difference =
      figure(std::abs(step.gain.in(unit::gram_per_tonne)), g_t(lo), g_t(hi), unit::gram_per_tonne.symbol, {}, mark);
  std::string words = fmt::format("From P80 {} to {} the pan caught {} {}", size_in_words(from.p80, mark),
                                  size_in_words(to.p80, mark), with_unit(difference), less ? "less" : "more");
  switch (step.verdict) {
    case results::GrindVerdict::more:
    case results::GrindVerdict::less: words += ", which is beyond the uncertainty"; break;
    case results::GrindVerdict::not_shown: words += ", which is not beyond the uncertainty"; break;
    case results::GrindVerdict::not_determined: return words + "; whether that is beyond the uncertainty is not determined.";
  }
  return words + (step.basis == VerdictBasis::weighing ? "; sampling not judged." : ", sampling included.");
}

Sentences grind_words(const results::GrindStudy& study, DecimalMark mark) {
  Sentences out;
  for (const results::GrindStep& step : study.steps) out.push_back(grind_step_words(study, step, mark));
  return out;
}

}  // namespace prillbook::summary
