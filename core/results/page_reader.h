// SPDX-License-Identifier: GPL-3.0-or-later
// Reads many samples: what they share is read once, and what is their own by one statement for each kind of record.
#pragma once

#include <span>

#include "core/custody/custody_record.h"
#include "core/history/read_ahead.h"
#include "core/results/sample_record.h"

namespace prillbook::results {

// Made, used and dropped inside one Connection::snapshot.
class PageReader {
 public:
  explicit PageReader(store::Connection& connection) : connection_(connection), ahead_(connection) {}

  // The samples that will be read. Errors: the faults of the file.
  Result<void> begin(std::span<const SampleId> samples);
  bool stands(SampleId id) const;  // one of those, and not struck out
  // The sample's own half; that of the lab stands in `record` already. Errors: not_found, damaged.
  Result<void> read(SampleId id, SampleRecord& record);

  history::Source source() { return {connection_, ahead_}; }
  std::span<const RecordId> charges() const { return charges_; }  // of the samples

 private:
  Result<const custody::ConsignmentRecord*> consignment(ConsignmentId id, std::span<const lab::Person> people);
  Result<void> read_tests(std::span<const RecordId> portions);
  Result<void> read_beads(std::span<const RecordId> pan_tests);

  store::Connection& connection_;
  history::ReadAhead ahead_;
  std::vector<RecordId> charges_;
  std::optional<custody::ConsignmentRecord> consignment_;  // of the sample before: mostly that of the next
};

}  // namespace prillbook::results
