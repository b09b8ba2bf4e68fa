// SPDX-License-Identifier: GPL-3.0-or-later
// Figures as a client reads them, all rounded by the rule of core/assay/rounding.h.
#pragma once

#include <optional>
#include <string>
#include <string_view>

#include "core/assay/grade.h"
#include "core/readings/reading.h"
#include "core/wording/speech.h"

namespace prillbook::summary {

using wording::Speech;

struct Figure {
  std::optional<double> value;               // in `unit`, not rounded; absent where only a limit is known, or nothing was seen
  std::optional<double> lo, hi;              // 95 %; hi alone: a limit above
  std::string digits, lo_digits, hi_digits;  // the same rounded, with a point; empty where absent
  std::string written;                       // "16.5 ± 0.9", "16.5 (14.1 to 17.0)", "< 0.05", "none seen", with the lab's mark
  std::string unit;
  wording::Language language = wording::Language::english;
};

// A value with its 95 % interval, both or neither end; `step` gives the last place where there is no interval. Without
// either three digits are kept. A value that rounds to 0 becomes a limit. Domain: finite.
Figure figure(double value, std::optional<double> lo, std::optional<double> hi, std::string_view unit, std::optional<double> step,
              const Speech& say);

// At most `hi`, rounded up to two digits where the first is 1 or 2, otherwise to one.
Figure limit(std::optional<double> hi, std::string_view unit, const Speech& say);

// 0 becomes a limit: what was not seen is never "0 ± 0".
Figure grade_figure(const MeasuredGrade& grade, const Unit<GradeDimension>& unit, const Speech& say);

// A mass in `unit`, with as many digits as were typed.
Figure mass_figure(const readings::Reading& reading, const Unit<MassDimension>& unit, const Speech& say);

// The reading as it was typed, with its unit: "4.10 kg", "none seen", "less than 0.01 mg".
std::string as_typed(const readings::Reading& reading, const Speech& say);

// "16.5" with the lab's mark.
std::string marked(std::string digits, DecimalMark mark);

// "16.5 ± 0.9 g/t"; without the unit where nothing was seen.
std::string with_unit(const Figure& figure);
// "16.5 ± 0.9 g/t, that is 0.48 ± 0.03 troy oz per short ton".
std::string both_units(const MeasuredGrade& grade, const Speech& say);

}  // namespace prillbook::summary
