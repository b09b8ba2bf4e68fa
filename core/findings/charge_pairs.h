// SPDX-License-Identifier: GPL-3.0-or-later
// What the rules about two charges of one rock share.
#pragma once

#include "core/findings/finding.h"

namespace prillbook::findings {

struct ChargePair {
  const results::TestResult* first;
  const results::TestResult* second;
  MeasuredGrade one, other;
  double apart_pct = 0;  // of their mean
};

// The two charges that are furthest apart, where that is beyond the lab's limit and three times what weighing and the number
// of grains explain; nullopt where no two are.
std::optional<ChargePair> widest_pair(const Scene& scene, std::optional<MeasuredGrade> GradeResult::*metal);
// Rule, severity, sample, what was seen, evidence and source are set.
Finding of_pair(const Scene& scene, const char* rule, const char* metal, const ChargePair& pair);

}  // namespace prillbook::findings
