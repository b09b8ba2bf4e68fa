// SPDX-License-Identifier: GPL-3.0-or-later
// Figures as findings write them.
#pragma once

#include <string>

#include "core/assay/compare.h"
#include "core/milling/steps.h"

namespace prillbook::findings {

// "16.5 ± 0.9", in g/t, rounded by the half width of the interval.
std::string grade_in_words(const MeasuredGrade& grade);
// "28.5 (24.1 to 32.9)", in g/t.
std::string gap_in_words(const Gap& gap);

// "crushing on 2026-05-04 at 10:05 (jaw crusher)"; the machine where it is given.
std::string step_in_words(const milling::Step& step, const std::string& machine = {});
// "4.06 kg", as the lab says a mass, no finer than 1 mg.
std::string mass_in_words(Mass mass);
// "4,55 kg": a figure as it was typed, with the unit it was understood in where none was typed.
std::string typed_with_unit(const readings::Reading& reading);
// "0.0042", a grade or a percentage to two digits that count.
std::string two_digits(double value);

}  // namespace prillbook::findings
