// SPDX-License-Identifier: GPL-3.0-or-later
#include <fmt/format.h>

#include <cmath>

#include "core/assay/rounding.h"
#include "core/results/gap_split.h"
#include "core/summary/lines.h"
#include "core/summary/words.h"

namespace prillbook::summary {
namespace {

constexpr double alike_permil = 50;  // common practice, no source: what touchstone can tell apart and little more

std::string per_tonne(Grade grade, const Speech& say) {
  return with_unit(figure(grade.in(unit::gram_per_tonne), {}, {}, unit::gram_per_tonne.symbol, {}, say));
}

std::string share_of(Grade part, Grade whole, const Speech& say) {
  return whole > Grade() ? fmt::format(" ({} %)", rounded(100 * (part / whole), 0, say)) : "";
}

// Gold of all the metal, per mille.
std::optional<double> fineness_of(const GradeResult& grade) {
  if (!grade.gold || !grade.fineness_known || grade.none_seen || !(grade.bead.value > Grade())) return std::nullopt;
  return 1000 * (grade.gold->value / grade.bead.value);
}

std::optional<double> fineness_of(const results::Group& group) {
  double sum = 0;
  int count = 0;
  for (const results::TestResult& test : group.tests) {
    if (test.state != results::TestState::done) continue;
    const auto one = fineness_of(*test.grade);
    if (!one) return std::nullopt;
    sum += *one, ++count;
  }
  return count ? std::optional(sum / count) : std::nullopt;
}

bool holds_collector(const SummarySample& sample) {
  for (const results::FireEntry& entry : sample.record.charges)
    if (!entry.charge.spoiled && entry.charge.collector) return true;
  return false;
}

}  // namespace

Sentences where_the_gap_is(const SummarySample& sample, const Speech& say) {
  const auto split = results::gap_split(sample.result);
  if (!split) return {};
  Sentences out{fmt::format("pan {}{}", per_tonne(split->pan, say), share_of(split->pan, split->fire, say))};
  const auto add = [&](const char* what, const std::optional<Grade>& part) {
    out.push_back(part ? fmt::format("{} {}{}", what, per_tonne(*part, say), share_of(*part, split->fire, say))
                       : fmt::format("{} not assayed", what));
  };
  add("remainder", split->remainder);
  add("tail", split->tail);
  const Grade open = split->unexplained;
  out.push_back(open < Grade() ? fmt::format("found beyond the fire {}", per_tonne(-open, say))
                               : fmt::format("unexplained {}{}", per_tonne(open, say), share_of(open, split->fire, say)));
  return out;
}

std::string head_sentence(const Comparison& comparison, const Speech& say) {
  if (!comparison.balance || !comparison.balance->gravity_recovery || !comparison.balance->recovery_of_head) return "";
  const PanBalance& balance = *comparison.balance;
  return fmt::format("Of the {} of gold found again in the pan test the pan drew off {} % as free gold, {} % with the remainder.",
                     with_unit(grade_figure(balance.calculated_head, unit::gram_per_tonne, say)),
                     rounded(100 * *balance.recovery_of_head, 0, say), rounded(100 * *balance.gravity_recovery, 0, say));
}

std::string silver_sentence(const SummarySample& sample, const Speech& say) {
  const auto& result = sample.result;
  if (!result.leading_pan) return "";
  const auto pan = fineness_of(*result.pan[*result.leading_pan].grade), fire = fineness_of(result.fire);
  if (!pan || !fire || holds_collector(sample) || std::abs(*pan - *fire) <= alike_permil) return "";
  const std::string figures = fmt::format("{} ‰ in the pan, {} ‰ by fire", rounded(*pan, 0, say), rounded(*fire, 0, say));
  if (*fire < *pan)
    return fmt::format(
        "The beads are of another fineness ({}): the fire also finds silver minerals that the pan leaves and the silver of its "
        "litharge, or a colour was misread. The two are not averaged.",
        figures);
  return fmt::format(
      "The fire bead is the finer one ({}), which is not usual: beads exchanged, silver lost in the cupel, or a colour misread. "
      "The two are not averaged.",
      figures);
}

}  // namespace prillbook::summary
