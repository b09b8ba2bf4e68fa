// SPDX-License-Identifier: GPL-3.0-or-later
// What is asked at once when a figure is typed at the balance. Pure; a figure is never changed here.
#pragma once

#include <optional>
#include <vector>

#include "core/readings/reading.h"
#include "core/units/quantity.h"

namespace prillbook::weighing {

enum class Doubt {
  perhaps_milligrams,    // typed in g, but a thousandth of it would be a likely bead
  heavier_than_portion,  // can not be
  very_rich,             // above the grade the lab finds suspicious
  apart_from_earlier,    // further from what was weighed before than the balance scatters
  off_step,              // no multiple of the balance step
  near_step,             // fewer than 20 steps: the relative error is large
};

struct Question {
  Doubt doubt;
  std::optional<readings::Reading> instead;  // the reading that is offered in its place
  // perhaps_milligrams, very_rich: grade in g/t as typed; near_step: half a step in % of the reading; apart_from_earlier: mg
  // between the least and the largest.
  double figure = 0;
};

struct Weighed {
  std::optional<Mass> portion;
  std::optional<Mass> step;
  Grade suspicious{};                           // grade above which a bead is asked about
  std::vector<readings::Reading> earlier = {};  // of the same thing on the same balance, measured
  std::optional<Mass> repeat_sd = {};           // of that balance, of one weighing
  bool tared = false;                           // each is the difference of two readings
};

// Most serious first; empty where there is nothing to ask. Domain: a mass reading.
std::vector<Question> doubts(const readings::Reading& mass, const Weighed& context);

inline constexpr double steps_for_comfort = 20;

// A mass that is no multiple of the step, beyond the rounding of doubles. Domain: step above 0; both in g.
bool is_off_step(double mass_g, double step_g);

}  // namespace prillbook::weighing
