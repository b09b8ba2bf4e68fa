// SPDX-License-Identifier: GPL-3.0-or-later
// Writes weeks into a notebook, one after another, and says what the notebook noticed.
#pragma once

#include <memory>
#include <set>
#include <string>
#include <vector>

#include "core/base/clock.h"
#include "core/store/connection.h"
#include "tests/slips/week.h"

namespace prillbook::slips {

struct Noticed {
  std::string refused;           // at entry: code and field; empty: all was written
  std::set<std::string> rules;   // of the good sample; what is a result and no slip is left out
  std::set<std::string> beside;  // of the poor sample
  std::set<std::string> asked;   // doubts that the weigh room asks about at entry
};

class LabBench {
 public:
  LabBench();
  // What the notebook says of this week on its Friday evening, or on another day.
  Noticed look(const Json& week, const std::string& now = moment(8, 18, 0));

 private:
  std::unique_ptr<store::Connection> blank_, notebook_;
};

}  // namespace prillbook::slips
