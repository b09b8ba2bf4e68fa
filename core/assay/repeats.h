// SPDX-License-Identifier: GPL-3.0-or-later
// Repeat weighings of one thing.
#pragma once

#include <optional>
#include <span>
#include <vector>

#include "core/units/units.h"

namespace prillbook {

struct RepeatStatistics {
  int n = 0;
  Mass mean;
  std::optional<Mass> sd;  // divisor n - 1; absent for a single reading
};

// Domain: at least one reading; none gives n = 0.
RepeatStatistics repeat_statistics(std::span<const Mass> readings);

struct Repeatability {
  Mass sd;
  double dof = 0;
};

// Pooled over groups of repeats: sqrt(sum of squares about each group's mean / sum of (n - 1)).
// nullopt where no group has two readings.
std::optional<Repeatability> pooled_repeatability(std::span<const std::vector<Mass>> groups);

}  // namespace prillbook
