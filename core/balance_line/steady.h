// SPDX-License-Identifier: GPL-3.0-or-later
// A balance that sends all the time, without being asked: a run of equal lines is one reading, and is taken once.
#pragma once

#include <optional>
#include <string>

#include "core/balance_line/balance_line.h"

namespace prillbook::balance_line {

class SteadyReadings {
 public:
  // So many equal lines that do not move make a run. At ten lines a second four are less than half a second: common practice,
  // no source.
  static constexpr int lines_of_a_run = 4;

  // What the balance shows with nothing to weigh on it, in g: 0, or the empty cup. Domain: finite, not below 0.
  void set_rest(double grams);

  // One line, and its mass in g where a person would read it as one; nullopt for a line that is no mass (overload).
  void see(const Figure& figure, std::optional<double> grams);

  bool is_steady() const { return equal_ >= lines_of_a_run; }
  // The run in view is steady and something: neither the empty balance nor the cup alone.
  bool is_reading() const { return is_steady() && !at_rest_; }
  // It was taken, and what was weighed lies there still: no second reading comes of it, however the last digit wanders.
  bool is_used() const { return used_; }
  // A reading that may be entered by itself: what lay there before was seen to be gone. By a key a person may take the first one
  // as well, though nobody saw the balance empty.
  bool may_enter_itself() const { return is_reading() && !used_ && seen_empty_; }
  bool may_be_taken() const { return is_reading() && !used_; }
  void taken();

 private:
  std::string typed_;
  int equal_ = 0;
  double rest_g_ = 0, last_g_ = 0, taken_g_ = 0;
  bool at_rest_ = false, used_ = false, seen_empty_ = false;
};

}  // namespace prillbook::balance_line
