// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/store/mended_schema.h"

#include <SQLiteCpp/Database.h>
#include <SQLiteCpp/Statement.h>
#include <sqlite3.h>

#include <array>
#include <fstream>
#include <map>
#include <memory>

#include "core/store/connection.h"
#include "core/store/faults.h"
#include "core/store/statements.h"

namespace prillbook::store {
namespace {

constexpr std::size_t head_bytes = 100;  // "Database File Format", section 1.3, of SQLite

// type, name, table, text; by the number of the row.
using SchemaRows = std::map<std::int64_t, std::array<std::string, 4>>;

SchemaRows rows_in(SQLite::Database& database) {
  SchemaRows rows;
  try {
    SQLite::Statement statement(database, sql::schema_rows.text);
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

// Pages by their number, from 1 on; as bytes.
using Pages = std::map<std::int64_t, std::string>;

// Those of the empty notebook of a version that hold its schema.
Pages schema_pages(SQLite::Database& model) {
  sqlite3_int64 size = 0;
  const std::unique_ptr<unsigned char, void (*)(void*)> bytes(sqlite3_serialize(model.getHandle(), "main", &size, 0),
                                                              sqlite3_free);
  const auto page_size = std::size_t(model.execAndGet("PRAGMA page_size").getInt64());
  Pages pages;
  SQLite::Statement statement(model, sql::schema_pages.text);
  while (bytes && statement.executeStep()) {
    const std::int64_t number = statement.getColumn(0).getInt64();
    pages[number].assign(reinterpret_cast<const char*>(bytes.get()) + std::size_t(number - 1) * page_size, page_size);
  }
  return pages;
}

std::string page_at(std::fstream& file, std::int64_t number, std::size_t size) {
  std::string page(size, '\0');
  file.seekg(std::streamoff(std::size_t(number - 1) * size));
  file.read(page.data(), std::streamsize(size));
  return page;
}

void put_pages(std::fstream& file, const Pages& pages) {
  for (const auto& [number, page] : pages) {
    file.seekp(std::streamoff(std::size_t(number - 1) * page.size()));
    file.write(page.data(), std::streamsize(page.size()));
  }
  file.flush();
}

bool reads_as(const std::string& path, SQLite::Database& model) {
  const auto same = guarded(path, [&] {
    SQLite::Database database(path, SQLite::OPEN_READONLY);
    return rows_in(database) == rows_in(model);
  });
  return same.ok() && *same;
}

bool is_sound(const std::string& path) {
  const auto sound = guarded(path, [&] {
    SQLite::Database database(path, SQLite::OPEN_READONLY);
    return database.execAndGet(sql::integrity.text).getString() == "ok";
  });
  return sound.ok() && *sound;
}

}  // namespace

Result<int> mend_schema_pages(const std::string& path, int version) {
  PRILLBOOK_ASSIGN(const auto model, Connection::in_memory(version));
  if (reads_as(path, model->database())) return 0;
  PRILLBOOK_ASSIGN(const Pages right, guarded(path, [&] { return schema_pages(model->database()); }));
  std::fstream file(path, std::ios::binary | std::ios::in | std::ios::out);
  Pages before, after;
  for (const auto& [number, page] : right) {
    const std::string there = page_at(file, number, page.size());
    // The head of the file has counters of its own.
    const std::string wanted = number == 1 ? there.substr(0, head_bytes) + page.substr(head_bytes) : page;
    if (there == wanted) continue;
    before[number] = there;
    after[number] = wanted;
  }
  if (!file || after.empty() || after.size() * 4 > right.size()) return 0;
  put_pages(file, after);
  if (is_sound(path)) return int(after.size());
  put_pages(file, before);
  return 0;
}

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
