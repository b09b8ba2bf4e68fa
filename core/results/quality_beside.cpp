// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/results/quality_beside.h"

#include <algorithm>
#include <optional>

#include "core/history/fields.h"
#include "core/history/record.h"

namespace prillbook::results {
namespace {

// Opened at the first need of it: most samples have neither a load nor a pair.
class LateReader {
 public:
  explicit LateReader(store::Connection& connection) : connection_(connection) {}
  Result<TestReader*> get() {
    if (!reader_) {
      PRILLBOOK_ASSIGN(reader_, TestReader::open(connection_));
    }
    return &*reader_;
  }
  store::Connection& connection() { return connection_; }

 private:
  store::Connection& connection_;
  std::optional<TestReader> reader_;
};

Result<void> add_runs(LateReader& late, const SampleRecord& record, QualityBeside& beside) {
  for (const RunNote& note : record.runs) {
    PRILLBOOK_ASSIGN(TestReader * reader, late.get());
    PRILLBOOK_ASSIGN(RunControls run, run_controls(*reader, note.run));
    if (!run.controls.empty() || run.decision) beside.runs.push_back(std::move(run));
  }
  return {};
}

// A test that is a duplicate, and those that are duplicates of it.
template <class Id>
Result<void> add_pairs_of(LateReader& late, Id test, bool is_duplicate, const history::Field& duplicate_of,
                          QualityBeside& beside) {
  std::vector<Id> seconds;
  if (is_duplicate) seconds.push_back(test);
  PRILLBOOK_ASSIGN(const auto records, history::load_referring(late.connection(), duplicate_of, test.value));
  for (const history::Record& one : records) seconds.push_back(Id{one.id()});
  for (const Id id : seconds) {
    PRILLBOOK_ASSIGN(TestReader * reader, late.get());
    PRILLBOOK_ASSIGN(SingleTest second, reader->read(id));
    PRILLBOOK_ASSIGN(DuplicatePair pair, pair_of(*reader, std::move(second)));
    const bool known = std::any_of(beside.pairs.begin(), beside.pairs.end(),
                                   [&](const DuplicatePair& one) { return one.second.bead.id == pair.second.bead.id; });
    if (!known) beside.pairs.push_back(std::move(pair));
  }
  return {};
}

}  // namespace

Result<QualityBeside> quality_beside(store::Connection& connection, const SampleRecord& record) {
  QualityBeside beside;
  if (record.charges.empty() && record.pan_tests.empty()) return beside;
  PRILLBOOK_ASSIGN(const auto stock, controls::material_of(connection, record.sample.id));
  if (stock) return beside;
  LateReader reader(connection);
  PRILLBOOK_TRY(add_runs(reader, record, beside));
  for (const FireEntry& entry : record.charges) {
    const fire::Charge& charge = entry.charge;
    PRILLBOOK_TRY(add_pairs_of(reader, charge.id, bool(charge.duplicate_of), history::fields::charge::duplicate_of, beside));
    if (charge.role != controls::Role::ordinary || charge.spoiled) continue;
    PRILLBOOK_ASSIGN(auto since, controls::since_at(connection, record.settings, charge.id));
    beside.since.push_back({charge.id, record.portion_label(charge.portion), std::move(since)});
  }
  for (const PanEntry& entry : record.pan_tests)
    PRILLBOOK_TRY(
        add_pairs_of(reader, entry.test.id, bool(entry.test.duplicate_of), history::fields::pan_test::duplicate_of, beside));
  return beside;
}

}  // namespace prillbook::results
