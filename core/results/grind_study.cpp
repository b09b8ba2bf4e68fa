// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/results/grind_study.h"

#include <algorithm>

#include "core/assay/grain_sampling.h"
#include "core/units/units.h"

namespace prillbook::results {
namespace {

struct Panned {
  const TestResult* test;
  Opening p80;
};

// The largest gold grain that anybody saw in a pan of this sample.
std::optional<Opening> grain_of(const SampleRecord& record) {
  std::optional<Opening> largest;
  for (const PanEntry& entry : record.pan_tests) {
    if (entry.test.spoiled || !entry.test.largest_colour || !(entry.test.largest_colour->value > 0)) continue;
    const Opening seen = entry.test.largest_colour->opening();
    if (!largest || seen > *largest) largest = seen;
  }
  return largest;
}

void add_sampling(std::vector<Contribution>& parts, const TestResult& test, const Grade& head, Opening grain) {
  if (const auto sd = grain_sampling_sd(head, test.grade->dry_portion, grain))
    parts.push_back(normal_part(UncertaintySource::sampling, sd->in(unit::gram_per_tonne)));
}

GrindPoint point_of(const Panned& panned, const MeasuredGrade* fire) {
  GrindPoint point{panned.test->label, panned.test->pan_test, panned.p80, *panned.test->grade->gold, {}, {}};
  if (!fire || !(fire->value > Grade())) return point;
  point.recovery = point.gold.value / fire->value;
  if (!point.gold.parts.empty() && !fire->parts.empty())
    point.interval = ratio_interval(point.gold.g_t(), point.gold.parts, fire->g_t(), fire->parts);
  return point;
}

GrindVerdict verdict_of(const Spread& spread) {
  if (spread.lo > 0) return GrindVerdict::more;
  return spread.hi < 0 ? GrindVerdict::less : GrindVerdict::not_shown;
}

}  // namespace

GrindStudy study_grinds(const SampleRecord& record, const std::vector<TestResult>& pan, const MeasuredGrade* fire) {
  std::vector<Panned> panned;
  for (const TestResult& test : pan)
    if (test.state == TestState::done && test.grade->gold && test.grind && *test.grind > Opening())
      panned.push_back({&test, *test.grind});
  std::stable_sort(panned.begin(), panned.end(), [](const Panned& a, const Panned& b) { return a.p80 > b.p80; });
  GrindStudy study;
  for (const Panned& one : panned) study.points.push_back(point_of(one, fire));
  const auto grain = grain_of(record);
  const auto step = [&](std::size_t coarse, std::size_t fine) {
    const MeasuredGrade &from = study.points[coarse].gold, &to = study.points[fine].gold;
    GrindStep made{coarse, fine, to.value - from.value, {}, {}, GrindVerdict::not_determined, VerdictBasis::weighing};
    if (!from.parts.empty() && !to.parts.empty()) {
      std::vector<Contribution> parts = to.parts;
      for (const Contribution& part : from.parts) parts.push_back(scaled(part, -1));
      if (grain) {
        const Grade head = fire ? fire->value : std::max(from.value, to.value);
        add_sampling(parts, *panned[coarse].test, head, *grain);
        add_sampling(parts, *panned[fine].test, head, *grain);
        made.basis = VerdictBasis::weighing_and_sampling;
      }
      const Spread spread_of_gain = spread(made.gain.in(unit::gram_per_tonne), parts);
      made.lo = Grade(spread_of_gain.lo, unit::gram_per_tonne);
      made.hi = Grade(spread_of_gain.hi, unit::gram_per_tonne);
      made.verdict = verdict_of(spread_of_gain);
    }
    study.steps.push_back(made);
  };
  for (std::size_t i = 1; i < study.points.size(); ++i)
    if (study.points[i].p80 < study.points[i - 1].p80) step(i - 1, i);
  if (study.points.size() > 2 && study.points.back().p80 < study.points.front().p80 && study.steps.size() > 1)
    step(0, study.points.size() - 1);
  return study;
}

}  // namespace prillbook::results
