// SPDX-License-Identifier: GPL-3.0-or-later
// What one sieve analysis says: the curve, its sizes, the laws through it, and where the metal is by size.
// Formulas and sources: docs/methods-sieves.md.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "core/results/sample_record.h"
#include "core/results/test_result.h"
#include "core/sieving/analysis.h"
#include "core/sieving/fits.h"

namespace prillbook::results {

enum class SizeState {
  waiting,  // something is not weighed yet: `waits_for`
  done,
  spoiled,  // `reason`
  refused,  // the masses contradict each other: `error`
};

struct Overload {
  SieveCutId cut;
  Opening opening;
  Mass retained, limit;
};

// What was sieved to one size, and the gold that was found in it.
struct FractionMetal {
  SieveCutId cut;
  PortionId portion;                  // none: no fraction was made of it
  std::string size;                   // "−850 µm +250 µm"
  double mass_pct = 0;                // of everything found after sieving
  std::optional<MeasuredGrade> gold;  // mean of its tests that count
  std::optional<double> gold_pct;     // of the gold in all fractions; only where `metal_complete`
};

struct Law {
  SizeLaw law;
  FitJudgement judgement;
};

struct SizeResult {
  SieveAnalysisId analysis;
  PortionId portion;
  std::string label;  // "26-0003/4"
  SizeState state = SizeState::waiting;
  std::string reason;
  std::vector<std::string> waits_for;  // "the portion", "850 µm", "the pan"
  std::optional<Error> error;
  std::optional<SieveResult> curve;  // done
  double loss_limit_pct = 0;         // done
  std::optional<Law> gaudin_schuhmann, rosin_rammler;
  std::vector<Overload> overloads;     // of what is weighed, also while it waits
  std::vector<FractionMetal> metal;    // one for each line where any fraction has a gold figure; else empty
  bool metal_complete = false;         // every fraction that holds anything has one
  std::optional<std::size_t> richest;  // place in `metal` of the size that holds most of the gold; metal_complete
  std::optional<Grade> built_up;       // grade of the portion from its fractions; metal_complete
};

SizeResult size_result(const SampleRecord& record, const sieves::Analysis& analysis, const std::vector<TestResult>& of_fractions);

// The input of analyse(); nullopt while a mass is missing. "<0.1 g" and "none" count as nothing.
std::optional<SieveAnalysis> sieve_input(const SampleRecord& record, const sieves::Analysis& analysis);
// The curve as far as it is weighed; empty without the mass of the portion.
std::vector<SieveRow> rows_so_far(const SampleRecord& record, const sieves::Analysis& analysis);

// Sieves that would help to find P80 inside the stack or in a narrower bracket: sizes of the series of the stack in the gap,
// else 1.4 and 2 times the top sieve or the same below the bottom one. Empty where nothing is wanting.
std::vector<Opening> sizes_that_would_help(const sieves::Analysis& analysis, const SieveResult& curve);

}  // namespace prillbook::results
