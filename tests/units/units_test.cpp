// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/units/units.h"

#include <gtest/gtest.h>

#include <concepts>

namespace prillbook {
namespace {

// Wrong code must not compile.
template <class A, class B>
concept Addable = requires(A a, B b) { a + b; };
template <class A, class B>
concept Comparable = requires(A a, B b) { a < b; };
template <class A, class B>
concept Multipliable = requires(A a, B b) { a * b; };

static_assert(Addable<Mass, Mass>);
static_assert(!Addable<Mass, Grade>);
static_assert(!Addable<Mass, double>);
static_assert(!Comparable<Mass, Fineness>);
static_assert(!Comparable<Mass, double>);
static_assert(!Multipliable<Mass, Mass>);
static_assert(!std::convertible_to<double, Mass>);
static_assert(!std::constructible_from<Mass, double>);
static_assert(!std::constructible_from<Mass, double, Unit<GradeDimension>>);
static_assert(std::same_as<decltype(Mass{} / Mass{}), double>);

TEST(Units, SymbolsAsTyped) {
  EXPECT_EQ(find_mass_unit("MG"), &unit::milligram);
  EXPECT_EQ(find_mass_unit("kg"), &unit::kilogram);
  EXPECT_EQ(find_mass_unit("µg"), &unit::microgram);
  EXPECT_EQ(find_mass_unit("oz"), nullptr) << "a bare ounce is ambiguous";
  EXPECT_EQ(find_mass_unit("ton"), nullptr) << "a bare ton is ambiguous";
  EXPECT_EQ(find_fineness_unit("%"), &unit::percent_fine);
}

TEST(Units, BeadToGrade) {
  EXPECT_DOUBLE_EQ(grade(Mass(22, unit::milligram), Mass(1, unit::kilogram)).in(unit::gram_per_tonne), 22);
}

}  // namespace
}  // namespace prillbook
