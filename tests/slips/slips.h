// SPDX-License-Identifier: GPL-3.0-or-later
// Slips of real life, each planted into a clean week.
#pragma once

#include <string>
#include <vector>

#include "tests/slips/week.h"

namespace prillbook::slips {

struct Slip {
  std::string name;                // what somebody did
  std::vector<std::string> found;  // by one of these rules, or words of a doubt or a refusal at entry; empty: missed, honestly
  void (*plant)(Json& week);
  std::string now = moment(8, 18, 0);  // when somebody looks
};

const std::vector<Slip>& all_slips();

}  // namespace prillbook::slips
