// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/results/quality_beside.h"

#include <algorithm>

#include "core/history/fields.h"

namespace prillbook::results {

Result<TestReader*> QualityReader::tests() {
  if (!tests_) {
    PRILLBOOK_ASSIGN(tests_, TestReader::open(source_.connection()));
  }
  return &*tests_;
}

Result<const RunControls*> QualityReader::run(FurnaceRunId id) {
  if (const auto known = runs_.find(id); known != runs_.end()) return &known->second;
  PRILLBOOK_ASSIGN(TestReader * reader, tests());
  PRILLBOOK_ASSIGN(RunControls run, run_controls(*reader, id));
  return &runs_.emplace(id, std::move(run)).first->second;
}

Result<void> QualityReader::add_runs(const SampleRecord& record, QualityBeside& beside) {
  for (const RunNote& note : record.runs) {
    PRILLBOOK_ASSIGN(const RunControls* one, run(note.run));
    if (!one->controls.empty() || one->decision) beside.runs.push_back(*one);
  }
  return {};
}

// A test that is a duplicate, and those that are duplicates of it.
template <class Id>
Result<void> QualityReader::add_pairs_of(Id test, bool is_duplicate, const history::Field& duplicate_of, QualityBeside& beside) {
  std::vector<Id> seconds;
  if (is_duplicate) seconds.push_back(test);
  PRILLBOOK_ASSIGN(const auto records, history::load_referring(source_, duplicate_of, test.value));
  for (const history::Record& one : records) seconds.push_back(Id{one.id()});
  for (const Id id : seconds) {
    PRILLBOOK_ASSIGN(TestReader * reader, tests());
    PRILLBOOK_ASSIGN(SingleTest second, reader->read(id));
    PRILLBOOK_ASSIGN(DuplicatePair pair, pair_of(*reader, std::move(second)));
    const bool known = std::any_of(beside.pairs.begin(), beside.pairs.end(),
                                   [&](const DuplicatePair& one) { return one.second.bead.id == pair.second.bead.id; });
    if (!known) beside.pairs.push_back(std::move(pair));
  }
  return {};
}

Result<void> QualityReader::begin(std::span<const RecordId> charges) {
  insertions_.reset();
  if (charges.empty()) return {};
  const auto [first, last] = std::minmax_element(charges.begin(), charges.end());
  PRILLBOOK_ASSIGN(insertions_, controls::Insertions::read(source_.connection(), ChargeId{*first}, ChargeId{*last}));
  return {};
}

Result<QualityBeside> QualityReader::beside(const SampleRecord& record) {
  QualityBeside beside;
  if (record.charges.empty() && record.pan_tests.empty()) return beside;
  PRILLBOOK_ASSIGN(const auto stock, controls::material_of(source_, record.sample.id));
  if (stock) return beside;
  PRILLBOOK_TRY(add_runs(record, beside));
  for (const FireEntry& entry : record.charges) {
    const fire::Charge& charge = entry.charge;
    PRILLBOOK_TRY(add_pairs_of(charge.id, bool(charge.duplicate_of), history::fields::charge::duplicate_of, beside));
    if (charge.role != controls::Role::ordinary || charge.spoiled || !insertions_) continue;
    PRILLBOOK_ASSIGN(auto since, insertions_->since_at(record.settings, charge.id));
    beside.since.push_back({charge.id, record.portion_label(charge.portion), std::move(since)});
  }
  for (const PanEntry& entry : record.pan_tests)
    PRILLBOOK_TRY(add_pairs_of(entry.test.id, bool(entry.test.duplicate_of), history::fields::pan_test::duplicate_of, beside));
  return beside;
}

Result<QualityBeside> quality_beside(store::Connection& connection, const SampleRecord& record) {
  std::vector<RecordId> charges;
  for (const FireEntry& entry : record.charges) charges.push_back(entry.charge.id.value);
  QualityReader reader(connection);
  PRILLBOOK_TRY(reader.begin(charges));
  return reader.beside(record);
}

}  // namespace prillbook::results
