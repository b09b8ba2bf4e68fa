// SPDX-License-Identifier: GPL-3.0-or-later
// Pan tests of one sample at several grinds: what the pan caught against P80, and whether a finer grind caught more than
// chance. Formulas: docs/methods-sieves.md, "Pan tests at several grinds".
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "core/assay/compare.h"
#include "core/results/sample_record.h"
#include "core/results/test_result.h"

namespace prillbook::results {

struct GrindPoint {
  std::string label;  // "26-0003/2"
  PanTestId test;
  Opening p80;
  MeasuredGrade gold;                     // caught, of the portion panned
  std::optional<double> recovery;         // a fraction of the fire assay; absent without one, or where it saw no gold
  std::optional<RatioInterval> interval;  // 95 %, weighing and fineness; absent where an uncertainty is missing
};

enum class GrindVerdict {
  more,            // the finer grind caught more, and the whole interval lies above 0
  less,            // caught less, beyond the interval
  not_shown,       // the difference is within the uncertainty
  not_determined,  // an uncertainty is missing
};

// From one grind to a finer one.
struct GrindStep {
  std::size_t coarse = 0, fine = 0;  // places in `points`
  Grade gain;                        // finer less coarser
  std::optional<Grade> lo, hi;       // 95 %
  GrindVerdict verdict = GrindVerdict::not_determined;
  VerdictBasis basis = VerdictBasis::weighing;
};

struct GrindStudy {
  std::vector<GrindPoint> points;  // coarse to fine; tests without a grind or a gold figure are left out
  std::vector<GrindStep> steps;    // between neighbours, then from the coarsest to the finest where there are three or more
};

// `fire`: the mean of fire assay; nullptr where there is none. Sampling enters where the size of a gold grain is known.
GrindStudy study_grinds(const SampleRecord& record, const std::vector<TestResult>& pan, const MeasuredGrade* fire);

}  // namespace prillbook::results
