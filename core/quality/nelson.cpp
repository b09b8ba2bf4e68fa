// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/quality/nelson.h"

#include <algorithm>
#include <cmath>
#include <span>

#include "core/quality/scores.h"

namespace prillbook {
namespace {

using Scores = std::span<const double>;

bool above(double z, double limit) { return z > limit + score_rounding; }
bool below(double z, double limit) { return z < -limit - score_rounding; }

bool beyond_3s(Scores scores) { return above(scores.back(), 3) || below(scores.back(), 3); }

// At least `needed` of the last `count`, the newest among them, lie beyond `limit` on one side.
bool so_many_beyond(Scores scores, std::size_t needed, std::size_t count, double limit) {
  if (scores.size() < needed) return false;
  const auto last = scores.last(std::min(count, scores.size()));
  const auto enough = [&](bool (*side)(double, double)) {
    return side(last.back(), limit) &&
           std::count_if(last.begin(), last.end(), [&](double z) { return side(z, limit); }) >= std::ptrdiff_t(needed);
  };
  return enough(above) || enough(below);
}

bool nine_one_side(Scores scores) { return so_many_beyond(scores, 9, 9, 0); }
bool two_of_three_2s(Scores scores) { return so_many_beyond(scores, 2, 3, 2); }
bool four_of_five_1s(Scores scores) { return so_many_beyond(scores, 4, 5, 1); }

bool six_monotone(Scores scores) {
  if (scores.size() < 6) return false;
  const auto last = scores.last(6);
  const auto breaks = [&](auto in_order) { return std::adjacent_find(last.begin(), last.end(), in_order) == last.end(); };
  return breaks([](double a, double b) { return !(b > a + score_rounding); }) ||
         breaks([](double a, double b) { return !(b < a - score_rounding); });
}

bool fourteen_swinging(Scores scores) {
  if (scores.size() < 14) return false;
  const auto last = scores.last(14);
  for (std::size_t i = 2; i < last.size(); ++i) {
    const double before = last[i - 1] - last[i - 2], after = last[i] - last[i - 1];
    if (std::abs(before) <= score_rounding || std::abs(after) <= score_rounding || before * after > 0) return false;
  }
  return true;
}

bool all_of_last(Scores scores, std::size_t count, bool within) {
  if (scores.size() < count) return false;
  const auto last = scores.last(count);
  return std::all_of(last.begin(), last.end(), [&](double z) { return within != (above(z, 1) || below(z, 1)); });
}

bool fifteen_within_1s(Scores scores) { return all_of_last(scores, 15, true); }

bool eight_outside_1s(Scores scores) {
  if (!all_of_last(scores, 8, false)) return false;
  const auto last = scores.last(8);
  const auto positive = std::count_if(last.begin(), last.end(), [](double z) { return z > 0; });
  return positive > 0 && positive < 8;
}

constexpr bool (*tests[])(Scores) = {beyond_3s,       nine_one_side,   six_monotone,      fourteen_swinging,
                                     two_of_three_2s, four_of_five_1s, fifteen_within_1s, eight_outside_1s};

}  // namespace

Result<std::vector<NelsonSignal>> nelson_signals(const std::vector<double>& values, double target, double sd) {
  PRILLBOOK_ASSIGN(const std::vector<double> scores, control_scores(values, target, sd));
  std::vector<NelsonSignal> signals;
  for (std::size_t i = 0; i < scores.size(); ++i)
    for (std::size_t rule = 0; rule < std::size(tests); ++rule)
      if (tests[rule](Scores(scores.data(), i + 1))) signals.push_back({i, NelsonRule(rule + 1)});
  return signals;
}

}  // namespace prillbook
