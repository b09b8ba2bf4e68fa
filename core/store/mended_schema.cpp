// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/store/mended_schema.h"

#include <SQLiteCpp/Database.h>
#include <SQLiteCpp/Statement.h>

#include <array>
#include <map>

#include "core/store/connection.h"
#include "core/store/faults.h"
#include "core/store/statements.h"

namespace prillbook::store {
namespace {

// type, name, table, text; by the number of the row.
using SchemaRows = std::map<std::int64_t, std::array<std::string, 4>>;

SchemaRows rows_in(SQLite::Database& database) {
  SchemaRows rows;
  SQLite::Statement statement(database, sql::schema_rows.text);
  try {
    while (statement.executeStep())
      for (int column = 0; column < 4; ++column)
        rows[statement.getColumn(0).getInt64()][std::size_t(column)] = statement.getColumn(column + 1).getString();
  } catch (const SQLite::Exception&) {
    // What reads before the damage is what there is.
  }
  return rows;
}

void write_row(SQLite::Database& database, std::int64_t number, const std::array<std::string, 4>& cells) {
  SQLite::Statement statement(database, sql::write_schema_row.text);
  for (int column = 0; column < 4; ++column) {
    const std::string& cell = cells[std::size_t(column)];
    if (column == 3 && cell.empty())
      statement.bind(column + 1);
    else
      statement.bind(column + 1, cell);
  }
  statement.bind(5, number);
  statement.exec();
}

// Rows that differ from the model; none of them where less than three quarters agree.
SchemaRows to_mend(const SchemaRows& found, const SchemaRows& model) {
  SchemaRows different;
  for (const auto& [number, cells] : model)
    if (const auto there = found.find(number); there == found.end() || there->second != cells) different[number] = cells;
  return different.size() * 4 <= model.size() ? different : SchemaRows{};
}

}  // namespace

Result<int> mend_schema(const std::string& path, int version) {
  PRILLBOOK_ASSIGN(const auto model, Connection::in_memory(version));
  return guarded(path, [&] {
    SQLite::Database database(path, SQLite::OPEN_READWRITE);
    // With this a schema that is not understood does not keep its own table from being read and written. The first
    // statement still meets the fault.
    database.exec("PRAGMA writable_schema = ON");
    (void)database.tryExec("SELECT 1 FROM sqlite_schema");
    const SchemaRows different = to_mend(rows_in(database), rows_in(model->database()));
    for (const auto& [number, cells] : different) write_row(database, number, cells);
    return int(different.size());
  });
}

}  // namespace prillbook::store
