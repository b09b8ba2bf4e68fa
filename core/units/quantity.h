// SPDX-License-Identifier: GPL-3.0-or-later
// Strong types for what the lab measures. A Mass cannot be added to a Grade, nor built from a bare number.
#pragma once

#include <compare>
#include <string_view>

#include "core/units/rational.h"

namespace prillbook {

// A unit of dimension D: how many base units one of it is, exactly.
template <class D>
struct Unit {
  Rational in_base;
  std::string_view symbol;
};

template <class D>
class Quantity {
 public:
  constexpr Quantity() = default;
  constexpr Quantity(double value, const Unit<D>& unit) : base_(scaled(value, unit.in_base)) {}

  constexpr double in(const Unit<D>& unit) const { return scaled(base_, Rational{1, 1} / unit.in_base); }

  constexpr Quantity operator-() const { return raw(-base_); }
  friend constexpr Quantity operator+(Quantity a, Quantity b) { return raw(a.base_ + b.base_); }
  friend constexpr Quantity operator-(Quantity a, Quantity b) { return raw(a.base_ - b.base_); }
  friend constexpr Quantity operator*(Quantity a, double k) { return raw(a.base_ * k); }
  friend constexpr Quantity operator*(double k, Quantity a) { return raw(a.base_ * k); }
  friend constexpr Quantity operator/(Quantity a, double k) { return raw(a.base_ / k); }
  friend constexpr double operator/(Quantity a, Quantity b) { return a.base_ / b.base_; }
  constexpr Quantity& operator+=(Quantity other) { return *this = *this + other; }
  constexpr Quantity& operator-=(Quantity other) { return *this = *this - other; }
  friend constexpr auto operator<=>(Quantity, Quantity) = default;

 private:
  static constexpr Quantity raw(double base) {
    Quantity q;
    q.base_ = base;
    return q;
  }
  double base_ = 0;
};

using Mass = Quantity<struct MassDimension>;          // base: gram
using Grade = Quantity<struct GradeDimension>;        // base: gram per tonne
using Fineness = Quantity<struct FinenessDimension>;  // base: part per thousand
using Opening = Quantity<struct OpeningDimension>;    // base: micrometre; sieve openings, top sizes, P80
using Density = Quantity<struct DensityDimension>;    // base: gram per cubic centimetre
using Share = Quantity<struct ShareDimension>;        // base: per cent (moisture, losses)

}  // namespace prillbook
