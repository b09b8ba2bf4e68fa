// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/results/lists.h"

#include "core/history/fields.h"
#include "core/history/record.h"
#include "core/results/statements.h"

namespace prillbook::results {

Result<std::vector<TestedSample>> tested_samples(store::Connection& connection, std::int64_t limit, std::int64_t offset) {
  std::vector<TestedSample> list;
  PRILLBOOK_TRY(connection.rows(sql::tested_samples, {limit, offset}, [&](const store::Row& row) {
    list.push_back(
        {SampleId{row.integer(0)}, row.text(1), row.text(2), row.text(3), row.integer(4), row.integer(5), row.integer(6) != 0});
    return true;
  }));
  return list;
}

Result<std::int64_t> count_comparable_samples(store::Connection& connection) {
  return connection.integer(sql::count_comparable_samples);
}

Result<std::vector<ClientLine>> clients_with_samples(store::Connection& connection, std::int64_t limit, std::int64_t offset) {
  std::vector<ClientLine> list;
  PRILLBOOK_TRY(connection.rows(sql::clients_with_samples, {limit, offset}, [&](const store::Row& row) {
    list.push_back({ClientId{row.integer(0)}, row.text(1), row.integer(2), row.integer(3)});
    return true;
  }));
  return list;
}

Result<std::int64_t> count_clients_with_results(store::Connection& connection) {
  return connection.integer(sql::count_clients_with_results);
}

Result<std::vector<ClientSample>> samples_for_summary(store::Connection& connection, ClientId client) {
  std::vector<ClientSample> list;
  PRILLBOOK_TRY(connection.rows(sql::samples_for_summary, {client.value}, [&](const store::Row& row) {
    list.push_back({SampleId{row.integer(0)}, row.text(1), row.text(2), row.integer(3) != 0});
    return true;
  }));
  return list;
}

Result<std::vector<ClientConsignment>> consignments_of(store::Connection& connection, ClientId client) {
  namespace f = history::fields::consignment;
  PRILLBOOK_ASSIGN(const auto records, history::load_referring(connection, f::client, client.value));
  std::vector<ClientConsignment> list;
  for (const history::Record& record : records) list.push_back({ConsignmentId{record.id()}, record.text(f::number)});
  return list;
}

}  // namespace prillbook::results
