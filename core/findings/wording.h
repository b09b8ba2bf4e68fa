// SPDX-License-Identifier: GPL-3.0-or-later
// Figures as findings write them.
#pragma once

#include <string>

#include "core/assay/compare.h"

namespace prillbook::findings {

// "16.5 ± 0.9", in g/t, rounded by the half width of the interval.
std::string grade_in_words(const MeasuredGrade& grade);
// "28.5 (24.1 to 32.9)", in g/t.
std::string gap_in_words(const Gap& gap);

}  // namespace prillbook::findings
