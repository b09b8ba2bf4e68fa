// SPDX-License-Identifier: GPL-3.0-or-later
// Exact ratio of two integers, for units that are defined exactly.
#pragma once

#include <cstdint>
#include <numeric>

namespace prillbook {

struct Rational {
  std::int64_t numerator = 1;
  std::int64_t denominator = 1;  // > 0

  friend constexpr bool operator==(const Rational&, const Rational&) = default;
};

// Lowest terms; denominator positive. Domain: denominator not 0.
constexpr Rational reduced(Rational r) {
  const std::int64_t common = std::gcd(r.numerator, r.denominator);
  const std::int64_t sign = r.denominator < 0 ? -1 : 1;
  return {sign * r.numerator / common, sign * r.denominator / common};
}

// Cross-reduced first, so that the factors of mass and grade units stay inside 64 bits.
constexpr Rational operator*(Rational a, Rational b) {
  const Rational left = reduced({a.numerator, b.denominator}), right = reduced({b.numerator, a.denominator});
  return reduced({left.numerator * right.numerator, left.denominator * right.denominator});
}

constexpr Rational operator/(Rational a, Rational b) { return a * Rational{b.denominator, b.numerator}; }

constexpr double scaled(double value, Rational by) {
  return value * static_cast<double>(by.numerator) / static_cast<double>(by.denominator);
}

}  // namespace prillbook
