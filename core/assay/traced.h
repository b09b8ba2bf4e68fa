// SPDX-License-Identifier: GPL-3.0-or-later
// A number that carries its partial derivatives, so that each formula is written once and its sensitivity
// coefficients (GUM 5.1.3) come with it.
#pragma once

#include <array>
#include <cstddef>

namespace prillbook {

template <std::size_t N>
struct Traced {
  double value = 0;
  std::array<double, N> slope{};

  Traced() = default;
  Traced(double constant) : value(constant) {}
  static Traced variable(double value, std::size_t index) {
    Traced result(value);
    result.slope[index] = 1;
    return result;
  }

  // value and a combination of the slopes of two numbers
  static Traced combined(double value, const Traced& a, double by_a, const Traced& b, double by_b) {
    Traced result(value);
    for (std::size_t i = 0; i < N; ++i) result.slope[i] = a.slope[i] * by_a + b.slope[i] * by_b;
    return result;
  }
  friend Traced operator+(const Traced& a, const Traced& b) { return combined(a.value + b.value, a, 1, b, 1); }
  friend Traced operator-(const Traced& a, const Traced& b) { return combined(a.value - b.value, a, 1, b, -1); }
  friend Traced operator*(const Traced& a, const Traced& b) { return combined(a.value * b.value, a, b.value, b, a.value); }
  friend Traced operator/(const Traced& a, const Traced& b) {  // b not 0
    return combined(a.value / b.value, a, 1 / b.value, b, -(a.value / b.value) / b.value);
  }
};

}  // namespace prillbook
