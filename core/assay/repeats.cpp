// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/assay/repeats.h"

#include <cmath>

namespace prillbook {
namespace {

double mean_of(std::span<const Mass> readings) {
  double mean = 0;  // updated step by step, so that large readings do not overflow their sum
  double n = 0;
  for (const Mass& reading : readings) mean += (reading.in(unit::gram)-mean) / ++n;
  return mean;
}

double squares_about(std::span<const Mass> readings, double mean) {
  double sum = 0;
  for (const Mass& reading : readings) sum += std::pow(reading.in(unit::gram)-mean, 2);
  return sum;
}

}  // namespace

RepeatStatistics repeat_statistics(std::span<const Mass> readings) {
  RepeatStatistics result;
  result.n = static_cast<int>(readings.size());
  if (readings.empty()) return result;
  const double mean = mean_of(readings);
  result.mean = Mass(mean, unit::gram);
  if (readings.size() > 1)
    result.sd = Mass(std::sqrt(squares_about(readings, mean) / static_cast<double>(readings.size() - 1)), unit::gram);
  return result;
}

std::optional<Repeatability> pooled_repeatability(std::span<const std::vector<Mass>> groups) {
  double squares = 0, dof = 0;
  for (const std::vector<Mass>& group : groups) {
    if (group.size() < 2) continue;
    squares += squares_about(group, mean_of(group));
    dof += static_cast<double>(group.size() - 1);
  }
  if (dof == 0) return std::nullopt;
  return Repeatability{Mass(std::sqrt(squares / dof), unit::gram), dof};
}

}  // namespace prillbook
