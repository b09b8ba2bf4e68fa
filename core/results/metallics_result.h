// SPDX-License-Identifier: GPL-3.0-or-later
// What metallics say: gold of the rock from all of the coarse part and the mean of portions of the fine part, by mass.
// Formula and source: core/assay/metallics.h; the uncertainty: docs/methods-pan.md, "Metallics".
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "core/assay/metallics.h"
#include "core/results/sample_record.h"
#include "core/results/test_result.h"

namespace prillbook::results {

enum class MetallicsState { waiting, done, refused };

struct MetallicsOf {
  MetallicsId id;
  PortionId portion, coarse, fine;
  std::string label;  // "26-0003/5", the portion screened
  MetallicsState state = MetallicsState::waiting;
  std::vector<std::string> waits_for;  // "an assay of the whole coarse part", "an assay of the fine part"
  std::optional<Error> error;
  int coarse_charges = 0, fine_charges = 0;  // that count
  std::optional<MetallicsResult> result;     // done
  std::optional<MeasuredGrade> gold;         // done; with the uncertainty of both parts
};

// `of_fractions`: the tests of all fractions of the sample.
MetallicsOf metallics_result(const SampleRecord& record, const gravity::Metallics& metallics,
                             const std::vector<TestResult>& of_fractions);

}  // namespace prillbook::results
