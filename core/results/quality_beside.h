// SPDX-License-Identifier: GPL-3.0-or-later
// The quality work that stands beside the tests of one sample.
#pragma once

#include <map>
#include <optional>
#include <span>
#include <vector>

#include "core/controls/insertion.h"
#include "core/results/run_controls.h"

namespace prillbook::results {

// How long ago the last controls were when a charge was made up.
struct ChargeSince {
  ChargeId charge;
  std::string label;
  std::vector<controls::Since> since;
};

struct QualityBeside {
  std::vector<RunControls> runs;     // the loads its charges went through that have controls or a decision
  std::vector<DuplicatePair> pairs;  // that one of its tests is part of
  std::vector<ChargeSince> since;    // ordinary charges that are not spoiled
};

// Reads it for one sample after another. Lives as long as one Connection::snapshot.
class QualityReader {
 public:
  explicit QualityReader(history::Source source) : source_(source) {}

  // The charges of the samples, in any order: the controls that they look back on are read for all of them.
  Result<void> begin(std::span<const RecordId> charges);
  // Of the stock of a control material: nothing. Errors: damaged.
  Result<QualityBeside> beside(const SampleRecord& record);

 private:
  Result<TestReader*> tests();
  Result<const RunControls*> run(FurnaceRunId id);
  Result<void> add_runs(const SampleRecord& record, QualityBeside& beside);
  template <class Id>
  Result<void> add_pairs_of(Id test, bool is_duplicate, const history::Field& duplicate_of, QualityBeside& beside);

  history::Source source_;
  std::optional<TestReader> tests_;  // opened at the first need of it: most samples have neither a load nor a pair
  std::optional<controls::Insertions> insertions_;
  std::map<FurnaceRunId, RunControls> runs_;
};

// Of one sample. Errors: damaged.
Result<QualityBeside> quality_beside(store::Connection& connection, const SampleRecord& record);

}  // namespace prillbook::results
