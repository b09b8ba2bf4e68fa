// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/upkeep/difference.h"

#include <algorithm>

#include "core/history/rows.h"
#include "core/upkeep/statements.h"

namespace prillbook::upkeep {
namespace {

using store::Connection;

Result<std::string> hash_at(Connection& connection, std::int64_t id) {
  std::string hash;
  PRILLBOOK_TRY(connection.rows(sql::hash_at, {id}, [&](const store::Row& row) {
    hash = row.blob(0);
    return false;
  }));
  return hash;
}

// Where two histories part: a hash that is alike tells that all before it is alike.
Result<std::int64_t> shared(Connection& here, Connection& copy) {
  PRILLBOOK_ASSIGN(const std::int64_t here_last, here.integer(sql::last_history_id));
  PRILLBOOK_ASSIGN(const std::int64_t copy_last, copy.integer(sql::last_history_id));
  std::int64_t alike = 0, unlike = std::min(here_last, copy_last) + 1;
  while (unlike - alike > 1) {
    const std::int64_t middle = alike + (unlike - alike) / 2;
    PRILLBOOK_ASSIGN(const std::string one, hash_at(here, middle));
    PRILLBOOK_ASSIGN(const std::string other, hash_at(copy, middle));
    (one == other && !one.empty() ? alike : unlike) = middle;
  }
  return alike;
}

Result<std::vector<history::HistoryRow>> history_rows(Connection& connection, const store::Sql& sql,
                                                      const store::Arguments& arguments) {
  std::vector<history::HistoryRow> rows;
  PRILLBOOK_TRY(connection.rows(sql, arguments, [&](const store::Row& row) {
    rows.push_back(history::read_history_row(row));
    return true;
  }));
  return rows;
}

Result<Since> since(Connection& connection, std::int64_t after, std::int64_t most_newest) {
  Since since;
  PRILLBOOK_TRY(connection.rows(sql::rows_since, {after}, [&](const store::Row& row) {
    since.entries = row.integer(0);
    since.gestures = row.integer(1);
    return false;
  }));
  PRILLBOOK_TRY(connection.rows(sql::persons_since, {after}, [&](const store::Row& row) {
    since.gestures_by_person.emplace_back(row.text(0), row.integer(1));
    return true;
  }));
  PRILLBOOK_TRY(connection.rows(sql::made_since, {after}, [&](const store::Row& row) {
    if (const auto* entity = history::find_entity(row.integer(0))) since.made.emplace_back(entity->entity, row.integer(1));
    return true;
  }));
  PRILLBOOK_ASSIGN(since.newest, history_rows(connection, sql::newest_gestures_since, {after, most_newest}));
  return since;
}

}  // namespace

Result<Holds> what_it_holds(Connection& connection) {
  Holds holds;
  PRILLBOOK_ASSIGN(holds.version, connection.version());
  PRILLBOOK_ASSIGN(holds.samples, connection.integer(sql::samples_held));
  PRILLBOOK_ASSIGN(holds.entries, connection.integer(sql::last_history_id));
  PRILLBOOK_ASSIGN(const auto last, history_rows(connection, sql::last_entry, {}));
  if (!last.empty()) holds.last = last.front();
  return holds;
}

Result<Difference> difference(Connection& here, Connection& copy, std::int64_t most_newest) {
  Difference found;
  PRILLBOOK_TRY(here.snapshot([&]() -> Result<void> {
    return copy.snapshot([&]() -> Result<void> {
      PRILLBOOK_ASSIGN(found.shared_entries, shared(here, copy));
      PRILLBOOK_ASSIGN(found.only_here, since(here, found.shared_entries, most_newest));
      PRILLBOOK_ASSIGN(found.only_in_copy, since(copy, found.shared_entries, most_newest));
      return {};
    });
  }));
  return found;
}

}  // namespace prillbook::upkeep
