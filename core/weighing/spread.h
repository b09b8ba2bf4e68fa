// SPDX-License-Identifier: GPL-3.0-or-later
// Repeat weighings of one thing: mean, spread, and the one that stands out. Nothing is ever dropped here.
#pragma once

#include <optional>

#include "core/lab/settings.h"
#include "core/weighing/bead.h"

namespace prillbook::weighing {

struct Spread {
  int n = 0;
  Mass mean;
  std::optional<Mass> sd;                  // divisor n - 1; absent for one
  const Weighing* outlier = nullptr;       // beyond the two-sided 5 % limit of Grubbs; from three weighings on
  std::optional<double> grubbs, critical;  // from three that are not all equal
};

// Of the weighings that count. Source: Grubbs 1969, as core/quality/robust.h.
Spread spread_of(const Bead& bead, std::string_view what);

// Whether a mass is out of keeping with what its sample was expected to be, beyond tenfold either way of the class's
// usual grade, while another bead of the tray would fit: the two may have changed places. Grades in g/t.
// Source: common practice, no source.
// Gold usual for an expected class, as the lab has set it; nullopt where no class is named.
std::optional<double> usual_grade_g_t(const lab::Settings& settings, const std::optional<std::string>& expected);
inline constexpr double out_of_keeping = 10;
bool perhaps_swapped(double grade, double usual, double grade_as_other, double usual_of_other);

}  // namespace prillbook::weighing
