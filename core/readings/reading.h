// SPDX-License-Identifier: GPL-3.0-or-later
// A figure as it was typed or came from a balance, below every domain and kept the same way everywhere.
#pragma once

#include <optional>
#include <string>
#include <string_view>

#include "core/base/id.h"
#include "core/base/number.h"
#include "core/base/result.h"
#include "core/units/measure.h"
#include "core/units/quantity.h"

namespace prillbook::readings {

enum class State {
  measured,
  none_seen,        // looked for and not there: "none", "nil"
  below_detection,  // "<0.01 mg": the value is the limit
};

struct Reading {
  Measure measure = Measure::mass;
  std::string typed;  // "0,022 g", blanks trimmed, nothing else changed
  std::string unit;   // the unit understood, by its symbol: "g"
  DecimalMark mark = DecimalMark::point;
  State state = State::measured;
  double value = 0;                   // in the base unit of the measure: g, ‰, µm, %, g/t; finite
  std::optional<BalanceId> balance;   // where it was read off one the lab knows
  std::optional<double> step_g;       // the step of that balance at that time
  std::optional<std::string> answer;  // what was answered when the figure was asked about

  // Domain: the measure is the one asked for; else 0.
  Mass mass() const;
  Fineness fineness() const;
  Opening opening() const;
  Share share() const;
  Grade grade() const;

  friend bool operator==(const Reading&, const Reading&) = default;
};

// What a field of the window tells about the figures typed into it.
struct Expectation {
  Measure measure = Measure::mass;
  std::string_view unit = "g";  // taken by a bare number
  DecimalMark preferred = DecimalMark::point;
  bool zero_allowed = true;
};

// Reads "22 mg", "0,022 g", "1 kg", "<0.01 mg", "none". A bare number takes the expected unit.
// Errors: not_a_number, ambiguous_mark, unknown_unit, not_finite, out_of_range (negative; fineness above 1000 ‰;
// a share above 100 %; zero where it is not allowed), missing_key (no text at all).
Result<Reading> parse(std::string_view text, const Expectation& expectation);

// The cell of a notebook: JSON with the keys typed, unit, mark, state, value, balance, step_g, answer; those that are
// absent or as usual (mark ".", state "measured") are left out.
std::string encode(const Reading& reading);
// Errors: damaged where the text is no reading of this measure or its value does not follow from what was typed.
Result<Reading> decode(std::string_view cell, Measure measure);

std::string_view base_unit(Measure measure);  // "g", "‰", "µm", "%", "g/t", "g/t"

}  // namespace prillbook::readings
