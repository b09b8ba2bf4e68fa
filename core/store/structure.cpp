// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/store/structure.h"

#include <fmt/format.h>

#include <map>
#include <utility>

#include "core/store/statements.h"

namespace prillbook::store {
namespace {

using Schema = std::map<std::pair<std::string, std::string>, std::pair<std::string, std::string>>;

Result<Schema> schema_of(Connection& connection) {
  Schema schema;
  PRILLBOOK_TRY(connection.rows(sql::schema, {}, [&](const Row& row) {
    schema[{row.text(0), row.text(1)}] = {row.text(2), row.text(3)};
    return true;
  }));
  return schema;
}

Result<void> check_integrity(Connection& connection, FaultList& faults) {
  return connection.rows(sql::integrity, {}, [&](const Row& row) {
    if (const std::string line = row.text(0); line != "ok") faults.add("file", line);
    return !faults.is_full();
  });
}

Result<void> check_references(Connection& connection, FaultList& faults) {
  return connection.rows(sql::foreign_keys, {}, [&](const Row& row) {
    faults.add(fmt::format("{} {}", row.text(0), row.integer(1)), fmt::format("refers to a {} that is not there", row.text(2)));
    return !faults.is_full();
  });
}

Result<void> check_schema(Connection& connection, FaultList& faults) {
  PRILLBOOK_ASSIGN(const std::int64_t id, connection.integer(sql::application_id));
  if (id != application_id) faults.add("file", "is not marked as a notebook");
  PRILLBOOK_ASSIGN(const int version, connection.version());
  if (version > Connection::newest_version())
    return Error{ErrorCode::newer_version,
                 "",
                 fmt::format("{}: the notebook was written by a newer program (version {})", connection.path(), version),
                 {connection.path(), std::to_string(version), std::to_string(Connection::newest_version())}};
  if (version < 1) {
    faults.add("file", fmt::format("has the version {}", version));
    return {};
  }
  PRILLBOOK_ASSIGN(const auto model, Connection::in_memory(version));
  PRILLBOOK_ASSIGN(const Schema expected, schema_of(*model));
  PRILLBOOK_ASSIGN(const Schema found, schema_of(connection));
  for (const auto& [key, text] : expected)
    if (const auto there = found.find(key); there == found.end())
      faults.add("schema", fmt::format("{} {} is missing", key.first, key.second));
    else if (there->second != text)
      faults.add("schema", fmt::format("{} {} is not as version {} has it", key.first, key.second, version));
  for (const auto& [key, text] : found)
    if (!expected.contains(key)) faults.add("schema", fmt::format("{} {} does not belong there", key.first, key.second));
  return {};
}

}  // namespace

void FaultList::add(std::string where, std::string what) {
  ++found_;
  if (!is_full()) faults_.push_back({std::move(where), std::move(what)});
}

Result<void> noting_damage(FaultList& faults, std::string_view where, const Result<void>& outcome) {
  if (outcome) return {};
  const ErrorCode code = outcome.error().code;
  if (code != ErrorCode::damaged && code != ErrorCode::not_a_notebook) return outcome;
  faults.add(std::string(where), outcome.error().detail);
  return {};
}

Result<void> check_structure(Connection& connection, FaultList& faults) {
  PRILLBOOK_TRY(noting_damage(faults, "schema", check_schema(connection, faults)));
  PRILLBOOK_TRY(noting_damage(faults, "file", check_integrity(connection, faults)));
  return noting_damage(faults, "file", check_references(connection, faults));
}

Result<std::vector<std::string>> columns_of(Connection& connection, const std::string& table) {
  std::vector<std::string> names;
  PRILLBOOK_TRY(connection.rows(sql::columns_of_table, {std::string_view(table)}, [&](const Row& row) {
    names.push_back(row.text(0));
    return true;
  }));
  return names;
}

}  // namespace prillbook::store
