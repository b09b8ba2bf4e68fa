// SPDX-License-Identifier: GPL-3.0-or-later
// Lists of samples by what can be said about them, without reading their records.
#pragma once

#include <string>
#include <vector>

#include "core/base/id.h"
#include "core/store/connection.h"

namespace prillbook::results {

// A sample with at least one bead that was weighed or looked for in vain, in a test that is not spoiled.
struct TestedSample {
  SampleId sample;
  std::string number, mark, client;
  std::int64_t pan_beads = 0, fire_beads = 0;
  bool fineness_missing = false;  // a weighed bead of it says nothing about gold yet

  friend bool operator==(const TestedSample&, const TestedSample&) = default;
};

// Newest first, a page at a time.
Result<std::vector<TestedSample>> tested_samples(store::Connection& connection, std::int64_t limit, std::int64_t offset = 0);
// Samples with a bead of the pan and one of the fire.
Result<std::int64_t> count_comparable_samples(store::Connection& connection);

struct ClientLine {
  ClientId client;
  std::string name;
  std::int64_t samples = 0, tested = 0;

  friend bool operator==(const ClientLine&, const ClientLine&) = default;
};

// Clients with samples, those whose samples came in last first.
Result<std::vector<ClientLine>> clients_with_samples(store::Connection& connection, std::int64_t limit, std::int64_t offset = 0);

// Clients of whom at least one sample has a bead that counts.
Result<std::int64_t> count_clients_with_results(store::Connection& connection);

struct ClientConsignment {
  ConsignmentId consignment;
  std::string number;
};

// Of one client, in the order in which they came.
Result<std::vector<ClientConsignment>> consignments_of(store::Connection& connection, ClientId client);

struct ClientSample {
  SampleId sample;
  std::string number, mark;
  bool tested = false;
};

// All samples of a client, oldest first.
Result<std::vector<ClientSample>> samples_for_summary(store::Connection& connection, ClientId client);

}  // namespace prillbook::results
