// SPDX-License-Identifier: GPL-3.0-or-later
// A million draws of pan against fire, beside a bare loop over the same draws that keeps nothing but sums.
#include <fmt/format.h>

#include <algorithm>
#include <chrono>

#include "core/assay/compare_draws.h"

namespace prillbook {
namespace {

constexpr std::int64_t draws = 1'000'000;

template <class Work>
double best_ms(Work&& work) {
  double best = 1e9;
  for (int round = 0; round < 5; ++round) {
    const auto start = std::chrono::steady_clock::now();
    work();
    best = std::min(best, std::chrono::duration<double, std::milli>(std::chrono::steady_clock::now() - start).count());
  }
  return best;
}

// Two weighings, a portion, a fineness and the sampling on either side.
CompareSide side(double g_t, double grams) {
  CompareSide one;
  one.gold =
      measured(Grade(g_t, unit::gram_per_tonne), {normal_part(UncertaintySource::bead_repeats, g_t * 0.004, 9),
                                                  rectangle_part(UncertaintySource::bead_step, -g_t * 0.001, g_t * 0.001),
                                                  rectangle_part(UncertaintySource::portion_step, -g_t * 0.0005, g_t * 0.0005),
                                                  rectangle_part(UncertaintySource::fineness, -g_t * 0.04, g_t * 0.04)});
  one.fineness_known = true;
  one.portion = Mass(grams, unit::gram);
  one.grain = Opening(80, unit::micrometre);
  return one;
}

double bare_loop(const GoldSides& sides) {
  std::vector<PartSampler> samplers(sides.pan_parts.begin(), sides.pan_parts.end());
  for (const Contribution& part : sides.fire_parts) samplers.emplace_back(part);
  boost::random::mt19937_64 engine(1);
  const std::size_t of_pan = sides.pan_parts.size();
  double sum = 0;
  for (std::int64_t at = 0; at < draws; ++at) {
    double pan = sides.pan, fire = sides.fire;
    for (std::size_t i = 0; i < samplers.size(); ++i) (i < of_pan ? pan : fire) += samplers[i](engine);
    sum += fire - pan + pan / fire;
  }
  return sum;
}

int run() {
  const auto comparison = compare_pan_with_fire({side(20, 1000), side(28, 50), {}, {}});
  if (!comparison.ok()) return 1;
  double kept = 0;
  const double bare = best_ms([&] { kept += bare_loop(comparison->gold_sides); });
  const double whole = best_ms([&] {
    const auto drawn = draw_comparison(*comparison, {draws, 1, nullptr, {}});
    if (drawn.ok()) kept += drawn->gap.mean;
  });
  fmt::print("{} draws of {} parts: {:.0f} ms, a bare loop {:.0f} ms, {:.2f} times [{:.3g}]\n", draws,
             comparison->gold_sides.pan_parts.size() + comparison->gold_sides.fire_parts.size(), whole, bare, whole / bare, kept);
  return 0;
}

}  // namespace
}  // namespace prillbook

int main() { return prillbook::run(); }
