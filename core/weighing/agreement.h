// SPDX-License-Identifier: GPL-3.0-or-later
// Whether repeat weighings of one thing on one balance agree.
#pragma once

#include <cstddef>
#include <optional>
#include <span>
#include <string>

#include "core/readings/reading.h"
#include "core/units/quantity.h"

namespace prillbook::weighing {

// How far the least and the largest of n weighings may lie apart in one case of twenty, in standard deviations of one.
// Domain: n from 2. Source: ISO 5725-6, critical range, table 1 (from memory); above ten as for twenty.
double critical_range_factor(std::size_t n);

// Beyond this, n weighings do not agree: twice the critical range (common practice, no source), so that not every twentieth
// bead is asked about.
Mass largest_spread(std::size_t n, Mass sd);

inline constexpr double spread_let_pass =
    0.005;  // of the mass: moves no grade that a client would see; common practice, no source

struct Disagreement {
  Mass range, allowed;
};

// Repeat weighings of one thing that lie further apart than `repeat_sd`, the scatter of one weighing on their balance,
// explains; at least a step, or the last digit of the finest figure, is taken for it. nullopt where they agree, and up to
// `spread_let_pass`. `tared`: each is the difference of two readings. Domain: measured masses; fewer than two agree.
std::optional<Disagreement> disagreement(std::span<const readings::Reading> repeats, std::optional<Mass> repeat_sd, bool tared);

// The figure as it would stand with two neighbouring digits exchanged, where it then lies within `apart` of all the others;
// nullopt where no exchange does that. `apart` is above 0.
std::optional<std::string> with_digits_exchanged(const readings::Reading& one, std::span<const readings::Reading> others,
                                                 Mass apart);

}  // namespace prillbook::weighing
