// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/summary/picture.h"

#include <fmt/format.h>

#include "core/assay/grain_sampling.h"
#include "core/summary/lines.h"

namespace prillbook::summary {
namespace {

using results::SampleResult;

// Silver may stretch the scale this much.
constexpr double longest_stretch = 3;

// The interval with the luck of the grain in it, as the verdict takes it: grains counted at the grade that fire assay found.
void add_sampling(PictureRow& row, const MeasuredGrade& grade, Mass dry, const SampleResult& result) {
  const auto& comparison = result.comparison;
  if (!comparison || comparison->basis != VerdictBasis::weighing_and_sampling || !result.grain) return;
  const auto sd = grain_sampling_sd(result.fire.gold.mean->value, dry, *result.grain);
  if (!sd) return;
  auto parts = grade.parts;
  parts.push_back(normal_part(UncertaintySource::sampling, sd->in(unit::gram_per_tonne)));
  const MeasuredGrade wide = measured(grade.value, std::move(parts));
  row.sampling_lo = wide.lo->in(unit::gram_per_tonne);
  row.sampling_hi = wide.hi->in(unit::gram_per_tonne);
}

bool holds_sampling(const MeasuredGrade& grade) {
  for (const Contribution& part : grade.parts)
    if (part.source == UncertaintySource::between_charges) return true;
  return false;
}

void add_row(IntervalPicture& picture, std::string label, Metal metal, const MeasuredGrade& grade, const Speech& say) {
  PictureRow row{std::move(label), metal, grade_figure(grade, unit::gram_per_tonne, say), {}, {}};
  if (row.figure.value || row.figure.hi) picture.rows.push_back(std::move(row));
}

std::vector<double> dots_of(const results::Group& group) {
  std::vector<double> dots;
  for (const results::TestResult& test : group.tests)
    if (test.state == results::TestState::done && test.grade->gold) dots.push_back(test.grade->gold->g_t());
  if (dots.size() < 2) dots.clear();
  return dots;
}

double reach(const Figure& figure) { return figure.hi.value_or(figure.value.value_or(0)); }

void add_silver(IntervalPicture& picture, const std::string& label, const MeasuredGrade* silver, const Speech& say) {
  if (!silver || picture.rows.empty()) return;
  double widest = 0;
  for (const PictureRow& row : picture.rows) widest = std::max(widest, reach(row.figure));
  if (reach(grade_figure(*silver, unit::gram_per_tonne, say)) <= longest_stretch * widest)
    add_row(picture, label, Metal::silver, *silver, say);
}

}  // namespace

IntervalPicture picture_of(const SummarySample& sample, const Speech& say, SilverRows silver) {
  IntervalPicture picture;
  const SampleResult& result = sample.result;
  const auto* pan = result.leading_pan ? &result.pan[*result.leading_pan].grade.value() : nullptr;
  if (pan) {
    add_row(picture, say("picture.pan_gold"), Metal::gold, *pan->gold, say);
    if (!picture.rows.empty()) add_sampling(picture.rows.back(), *pan->gold, pan->dry_portion, result);
  }
  const results::Group& fire = result.fire;
  if (fire.gold.mean) {
    const std::size_t before = picture.rows.size();
    add_row(picture, say("picture.fire_gold"), Metal::gold, *fire.gold.mean, say);
    if (picture.rows.size() > before) picture.rows.back().dots = dots_of(fire);
    if (picture.rows.size() > before && !holds_sampling(*fire.gold.mean))
      add_sampling(picture.rows.back(), *fire.gold.mean, fire.dry_portions, result);
  }
  if (result.comparison && result.comparison->gold.verdict == Verdict::gold_left_behind) {
    picture.gap_from = pan->gold->value.in(unit::gram_per_tonne);
    picture.gap_to = fire.gold.mean->value.in(unit::gram_per_tonne);
    picture.gap_label = say("picture.left");
  }
  const bool pan_silver = silver == SilverRows::of_both || !fire.gold.mean;
  if (pan && !pan->none_seen && pan_silver)
    add_silver(picture, say("picture.pan_silver"), pan->silver ? &*pan->silver : nullptr, say);
  if (fire.gold.mean) add_silver(picture, say("picture.fire_silver"), common_silver(fire), say);
  return picture;
}

}  // namespace prillbook::summary
