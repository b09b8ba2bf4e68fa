// SPDX-License-Identifier: GPL-3.0-or-later
// The sampling nomogram: error against mass, a line for each top size, and the way a sample took from line to line.
#pragma once

#include <vector>

#include "core/preparation/splitting.h"

namespace prillbook {

struct NomogramPoint {
  double mass_g = 0, sd_pct = 0;
};
struct NomogramLine {
  Opening top_size;
  std::vector<NomogramPoint> points;
};
struct Nomogram {
  std::vector<NomogramLine> lines;  // coarse to fine; slope -1/2 on log-log paper
  // Two points a stage, the lot and what was taken of it, both at the top size of the stage: splitting goes along a line,
  // crushing drops to the next. Each is the error of that mass taken from rock without end.
  std::vector<NomogramPoint> way;
  double least_g = 1, most_g = 1, least_pct = 1, most_pct = 1;  // whole powers of ten
};

// Lines at the top sizes of the stages and at some round ones between. `common` as for error_of_stages.
// Errors: as gy_error; too_small (no stages).
Result<Nomogram> nomogram_of(const GyInput& common, const std::vector<SplitStage>& stages);

}  // namespace prillbook
