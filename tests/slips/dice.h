// SPDX-License-Identifier: GPL-3.0-or-later
// Chance that is the same on every machine.
#pragma once

#include <cmath>
#include <cstdint>
#include <numbers>
#include <random>

namespace prillbook::slips {

// std::mt19937_64 is the same everywhere, the distributions of the library are not.
class Dice {
 public:
  explicit Dice(std::uint64_t seed) : engine_(seed * 0x9E3779B97F4A7C15u + 1) {}
  double even(double low, double high) { return low + (high - low) * double(engine_() >> 11) * 0x1.0p-53; }
  double normal(double mean, double sd) {
    const double radius = std::sqrt(-2 * std::log(even(1e-12, 1)));
    return mean + sd * radius * std::cos(2 * std::numbers::pi * even(0, 1));
  }
  bool chance(double share) { return even(0, 1) < share; }

 private:
  std::mt19937_64 engine_;
};

}  // namespace prillbook::slips
