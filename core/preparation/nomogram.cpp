// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/preparation/nomogram.h"

#include <algorithm>
#include <cmath>
#include <functional>

namespace prillbook {
namespace {

Result<NomogramPoint> point_at(GyInput input, Opening top_size, double mass_g) {
  input.top_size = top_size;
  input.mass = Mass(mass_g, unit::gram);
  input.lot.reset();
  input.target.reset();
  PRILLBOOK_ASSIGN(const GyResult gy, gy_error(input));
  return NomogramPoint{mass_g, gy.relative_sd_pct};
}

std::vector<Opening> top_sizes_of(const std::vector<SplitStage>& stages) {
  std::vector<Opening> sizes;
  for (const SplitStage& stage : stages) sizes.push_back(stage.top_size);
  for (const double um : {10'000.0, 2'000.0, 500.0, 75.0}) {
    const Opening size(um, unit::micrometre);
    const bool near_one = std::any_of(stages.begin(), stages.end(), [&](const SplitStage& stage) {
      return std::abs(std::log(stage.top_size / size)) < std::log(1.6);
    });
    if (!near_one) sizes.push_back(size);
  }
  std::sort(sizes.begin(), sizes.end(), std::greater<>());
  sizes.erase(std::unique(sizes.begin(), sizes.end()), sizes.end());
  return sizes;
}

}  // namespace

Result<Nomogram> nomogram_of(const GyInput& common, const std::vector<SplitStage>& stages) {
  if (stages.empty()) return refusal(ErrorCode::too_small, "stages", "no stage is known");
  Nomogram nomogram;
  double least_g = stages.front().taken.in(unit::gram), most_g = stages.front().lot.in(unit::gram);
  double least_pct = HUGE_VAL, most_pct = 0;
  for (const SplitStage& stage : stages) {
    least_g = std::min(least_g, stage.taken.in(unit::gram));
    most_g = std::max(most_g, stage.lot.in(unit::gram));
    for (const Mass mass : {stage.lot, stage.taken}) {
      PRILLBOOK_ASSIGN(const NomogramPoint point, point_at(common, stage.top_size, mass.in(unit::gram)));
      nomogram.way.push_back(point);
      least_pct = std::min(least_pct, point.sd_pct);
      most_pct = std::max(most_pct, point.sd_pct);
    }
  }
  if (!(least_pct > 0)) return refusal(ErrorCode::not_finite, "stages", "the error can't be drawn");
  const auto floor_power = [](double value) { return std::pow(10.0, std::floor(std::log10(value))); };
  const auto ceil_power = [](double value) { return std::pow(10.0, std::ceil(std::log10(value))); };
  nomogram.least_g = floor_power(least_g);
  nomogram.most_g = std::max(ceil_power(most_g), 10 * nomogram.least_g);
  nomogram.least_pct = floor_power(least_pct);
  nomogram.most_pct = std::max(ceil_power(most_pct), 10 * nomogram.least_pct);
  for (const Opening size : top_sizes_of(stages)) {
    NomogramLine line{size, {}};
    for (const double mass_g : {nomogram.least_g, nomogram.most_g}) {
      PRILLBOOK_ASSIGN(const NomogramPoint point, point_at(common, size, mass_g));
      line.points.push_back(point);
    }
    nomogram.lines.push_back(std::move(line));
  }
  return nomogram;
}

}  // namespace prillbook
