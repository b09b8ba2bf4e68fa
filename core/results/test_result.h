// SPDX-License-Identifier: GPL-3.0-or-later
// What one pan test or one charge says.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "core/assay/grade.h"
#include "core/base/id.h"

namespace prillbook::results {

enum class TestState {
  waiting,   // for its bead, or for the mass of its portion
  done,      // has a grade
  spoiled,   // lost, with its reason
  excluded,  // has a grade, left out of the mean with its reason
  refused,   // its figures contradict each other: see `error`
};

struct TestResult {
  std::string label;  // "26-0003/2"
  PortionId portion;
  PanTestId pan_test;  // one of the two
  ChargeId charge;
  BeadId bead;
  TestState state = TestState::waiting;
  std::string reason;  // spoiled, excluded
  std::optional<Error> error;
  std::optional<GradeResult> grade;  // done, excluded
  std::optional<Opening> grind;      // P80 of a pan test, where it is known
  // The furnace loads of a charge that are held: "fusion 13 May: blank high". A repeated load leaves its charges out.
  std::vector<std::string> held;
};

}  // namespace prillbook::results
