// SPDX-License-Identifier: GPL-3.0-or-later
// What should be there when a step begins, by what was weighed before.
#pragma once

#include <optional>

#include "core/results/sample_record.h"

namespace prillbook::findings {

struct MassBefore {
  Mass mass;
  double u2_g2 = 0;  // variance of the weighings behind it, g²

  // Standard uncertainty of the difference to a mass weighed now.
  Mass u_against(const readings::Reading& weighed) const;
};

// Of the portion or sample that the step worked on: its mass, less what was cut from it and what earlier steps took away;
// nullopt where it was not weighed.
std::optional<MassBefore> mass_before(const results::SampleRecord& record, const milling::Step& step);

}  // namespace prillbook::findings
