// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/fire/furnace_lists.h"

#include "core/fire/statements.h"

namespace prillbook::fire {
namespace {

Result<std::vector<FurnaceLine>> furnace_lines(store::Connection& connection, const store::Sql& statement, std::int64_t limit,
                                               std::int64_t offset, bool complete) {
  std::vector<FurnaceLine> list;
  PRILLBOOK_TRY(connection.rows(statement, {limit, offset}, [&](const store::Row& row) {
    list.push_back({PortionId{row.integer(0)}, ChargeId{row.integer(1)}, row.text(2), row.text(3),
                    row.optional_text(4).value_or(""), complete});
    return true;
  }));
  return list;
}

}  // namespace

Result<std::vector<FurnaceLine>> waiting_at_the_furnace(store::Connection& connection, std::int64_t limit, std::int64_t offset) {
  return furnace_lines(connection, sql::waiting_at_the_furnace, limit, offset, false);
}

Result<std::int64_t> count_waiting_at_the_furnace(store::Connection& connection) {
  return connection.integer(sql::count_waiting_at_the_furnace);
}

Result<std::vector<FurnaceLine>> charges_made(store::Connection& connection, std::int64_t limit, std::int64_t offset) {
  return furnace_lines(connection, sql::charges_made, limit, offset, true);
}

Result<ChargeId> spoiled_without_repeat(store::Connection& connection, SampleId sample) {
  ChargeId found;
  PRILLBOOK_TRY(connection.rows(sql::spoiled_without_repeat, {sample.value}, [&](const store::Row& row) {
    found = ChargeId{row.integer(0)};
    return false;
  }));
  return found;
}

}  // namespace prillbook::fire
