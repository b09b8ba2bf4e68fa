// SPDX-License-Identifier: GPL-3.0-or-later
// What arrives: consignments and their samples.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "core/base/clock.h"
#include "core/base/id.h"
#include "core/history/journal.h"
#include "core/history/record.h"
#include "core/readings/entry.h"

namespace prillbook::custody {

struct Consignment {
  ConsignmentId id;
  std::string number;
  ClientId client;
  Instant arrived;
  std::optional<std::string> carrier, remarks;
  std::optional<std::int64_t> pieces_declared, pieces_found;
  PersonId received_by;
  std::optional<std::string> seals = {}, pieces_condition = {};
  bool whole_form = false;  // every hand-over is to be written down
};

struct NewConsignment {
  ClientId client;
  std::optional<Instant> arrived;  // absent: now
  std::optional<std::string> carrier, remarks;
  std::optional<std::int64_t> pieces_declared, pieces_found;
  PersonId received_by;
};

struct Sample {
  SampleId id;
  std::string number;
  ConsignmentId consignment;
  std::string mark;
  std::optional<std::string> kind, place, expected, condition, remarks;
  readings::Figure mass_declared, mass_received, moisture;
  SampleId swept_from;
  readings::Figure gross = {}, tare = {};
  bool moisture_wanted = false;
  std::optional<std::string> tests_wanted = {};  // see wanted_tests
  std::optional<Instant> due = {}, retain_until = {}, disposed_at = {};
  std::optional<std::string> price_agreed = {}, price_paid = {}, treatment = {}, treatment_reason = {}, disposal = {};
  std::optional<std::string> taken_by = {}, taken_when = {};  // as the client says
};

struct NewSample {
  ConsignmentId consignment;
  std::string mark;
  std::optional<std::string> kind, place, expected, condition, remarks;
  readings::Figure mass_declared, mass_received, moisture;
  SampleId swept_from;
};

// Gives the next number by the lab's pattern. Errors: missing_key, inconsistent (no such client), out_of_range.
Result<ConsignmentId> log_consignment(history::Journal& journal, const NewConsignment& consignment);
Result<ConsignmentId> log_consignment(history::ChangeSet& set, const NewConsignment& consignment);
// Gives the next lab number by the lab's pattern and the year of arrival.
Result<SampleId> log_sample(history::Journal& journal, const NewSample& sample);
Result<SampleId> log_sample(history::ChangeSet& set, const NewSample& sample);

Result<Consignment> consignment(history::Source source, ConsignmentId id);
Result<Sample> sample(history::Source source, SampleId id);
Result<std::vector<Sample>> samples_of(store::Connection& connection, ConsignmentId id);
// Errors: not_found.
Result<SampleId> sample_by_number(store::Connection& connection, std::string_view number);

// A line of a list: enough to choose by, without reading the record.
struct SampleLine {
  SampleId id;
  std::string number, mark, client;
  std::optional<std::string> condition;
};
struct ConsignmentLine {
  ConsignmentId id;
  std::string number, client, arrived;
  std::int64_t samples = 0;
};

// Newest first, a page at a time.
Result<std::vector<ConsignmentLine>> consignments(store::Connection& connection, std::int64_t limit, std::int64_t offset = 0);
Result<std::vector<SampleLine>> recent_samples(store::Connection& connection, std::int64_t limit, std::int64_t offset = 0);
// Samples that have come in and of which nothing has been cut yet, oldest first.
Result<std::vector<SampleLine>> uncut_samples(store::Connection& connection, std::int64_t limit);
Result<std::int64_t> count_uncut_samples(store::Connection& connection);
Result<std::vector<SampleId>> samples_of_client(store::Connection& connection, ClientId client);

}  // namespace prillbook::custody
