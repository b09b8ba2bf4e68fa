// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/quality/control.h"

#include <algorithm>
#include <cmath>
#include <span>

#include "core/quality/scores.h"

namespace prillbook {
namespace {

// The last `count` scores all lie beyond `limit` on one side.
bool run_beyond(std::span<const double> scores, std::size_t count, double limit) {
  if (scores.size() < count) return false;
  const auto last = scores.last(count);
  const double bound = limit + score_rounding;
  return std::all_of(last.begin(), last.end(), [&](double z) { return z > bound; }) ||
         std::all_of(last.begin(), last.end(), [&](double z) { return z < -bound; });
}

bool far_apart(std::span<const double> scores) {
  const std::size_t n = scores.size();
  return n >= 2 && std::abs(scores[n - 1] - scores[n - 2]) > 4 + score_rounding;
}

}  // namespace

std::string_view contract_name(ControlRule rule) {
  switch (rule) {
    case ControlRule::warning_1_2s: return "1-2s";
    case ControlRule::reject_1_3s: return "1-3s";
    case ControlRule::reject_2_2s: return "2-2s";
    case ControlRule::reject_r_4s: return "R-4s";
    case ControlRule::reject_4_1s: return "4-1s";
    case ControlRule::reject_10x: return "10x";
  }
  return "";
}

Result<std::vector<ControlSignal>> control_signals(const std::vector<double>& values, double target, double sd) {
  PRILLBOOK_ASSIGN(const std::vector<double> scores, control_scores(values, target, sd));
  std::vector<ControlSignal> signals;
  for (std::size_t i = 0; i < scores.size(); ++i) {
    const std::span<const double> so_far(scores.data(), i + 1);
    const auto signal = [&](bool when, ControlRule rule) {
      if (when) signals.push_back({i, rule});
      return when;
    };
    if (!signal(run_beyond(so_far, 1, 3), ControlRule::reject_1_3s)) signal(run_beyond(so_far, 1, 2), ControlRule::warning_1_2s);
    signal(run_beyond(so_far, 2, 2), ControlRule::reject_2_2s);
    signal(far_apart(so_far), ControlRule::reject_r_4s);
    signal(run_beyond(so_far, 4, 1), ControlRule::reject_4_1s);
    signal(run_beyond(so_far, 10, 0), ControlRule::reject_10x);
  }
  return signals;
}

}  // namespace prillbook
