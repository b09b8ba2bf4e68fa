// SPDX-License-Identifier: GPL-3.0-or-later
// What the tests of one sample say, computed from its record. Pure: no figure is kept, each is computed anew.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "core/assay/compare.h"
#include "core/assay/grade.h"
#include "core/assay/mean_of_charges.h"
#include "core/results/grind_study.h"
#include "core/results/metallics_result.h"
#include "core/results/pan_account.h"
#include "core/results/sample_record.h"
#include "core/results/size_result.h"
#include "core/results/test_result.h"

namespace prillbook::results {

// The tests of one kind together.
struct Group {
  std::vector<TestResult> tests;  // all of them, in order
  MeanOfCharges gold, silver;     // of those that are done and have the metal
  Mass dry_portions;              // of those that count for gold
  bool fineness_known = false;    // every bead that counts has one
};

struct SampleResult {
  std::vector<TestResult> pan;             // each at its own grind: never averaged
  std::optional<std::size_t> leading_pan;  // the newest that is done and has gold
  Group fire;                              // charges of rock as received
  Group remainder, tail;                   // charges of what the leading pan test left
  std::optional<Comparison> comparison;    // leading pan against the mean of fire
  std::optional<Error> comparison_error;
  std::optional<Opening> grain;          // the size of gold that the sampling error was taken from
  std::vector<TestResult> of_fractions;  // pan tests and charges of sieve fractions: each speaks of its size alone
  std::vector<SizeResult> sizes;         // sieve analyses, in order
  GrindStudy grinds;                     // pan tests against their P80
  std::vector<PanAccount> pan_accounts;  // one for each of `pan`, in its order
  std::vector<MetallicsOf> metallics;    // portions screened, in order
};

SampleResult compute(const SampleRecord& record);

// The grade input that a test's records amount to; nullopt while its bead or its portion is not weighed.
std::optional<GradeInput> pan_input(const SampleRecord& record, const PanEntry& entry);
std::optional<GradeInput> fire_input(const SampleRecord& record, const FireEntry& entry);

// What one bead says by itself, as its test would count it.
// Errors: those of bead_to_grade; not_found where the record has no such bead. nullopt as for pan_input.
Result<std::optional<GradeResult>> grade_of_bead(const SampleRecord& record, BeadId bead);
// The same if this were the only weighing of the bead, or of the gold left of it, with the step that it carries.
Result<std::optional<GradeResult>> grade_if(SampleRecord record, BeadId bead, std::string_view what,
                                            const readings::Reading& mass);

}  // namespace prillbook::results
