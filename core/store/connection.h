// SPDX-License-Identifier: GPL-3.0-or-later
// One open notebook file. The only place that meets SQLiteCpp and its exceptions; the connection rules (journal,
// durability, foreign keys, defensive mode) are set here and hold everywhere.
#pragma once

#include <cstdint>
#include <functional>
#include <memory>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "core/base/result.h"
#include "core/store/sql.h"
#include "core/store/value.h"

namespace SQLite {
class Column;
class Database;
class Statement;
}  // namespace SQLite

namespace prillbook::store {

enum class Access { read_write, read_only };

// "Pril" in the application_id of the SQLite header marks a file as a notebook.
inline constexpr std::int32_t application_id = 0x5072'696C;

// The row a query stands on. Column numbers from 0; a wrong type reads as NULL, as SQLite converts.
class Row {
 public:
  using Columns = std::vector<SQLite::Column>;
  explicit Row(const Columns& columns) : columns_(&columns) {}
  bool is_null(int column) const;
  std::int64_t integer(int column) const;  // 0 where NULL
  std::optional<std::int64_t> optional_integer(int column) const;
  std::string text(int column) const;  // empty where NULL
  std::optional<std::string> optional_text(int column) const;
  std::string blob(int column) const;  // bytes
  Value value(int column) const;       // real numbers and blobs come as text
  ValueView view(int column) const;    // the same, until the next row
  int columns() const;

 private:
  const Columns* columns_;
};

// A blob as an argument; the view must live until the statement has run.
struct Blob {
  std::string_view bytes;
};
using Argument = std::variant<std::monostate, std::int64_t, std::string_view, Blob>;
using Arguments = std::vector<Argument>;
Argument as_argument(const Value& value);  // a view into `value`
inline Argument as_argument(const std::optional<std::int64_t>& value) { return value ? Argument{*value} : Argument{}; }

// Return false to stop reading.
using RowReader = std::function<bool(const Row&)>;

// A query read step by step, where two have to be read side by side. It holds a read lock while it lives, so it stays
// inside Connection::snapshot.
class Cursor {
 public:
  Cursor(Cursor&&) noexcept;
  Cursor& operator=(Cursor&&) noexcept;
  ~Cursor();
  // True where it stands on a row, false past the last one.
  Result<bool> next();
  Row row() { return Row(*columns_); }

 private:
  friend class Connection;
  Cursor(std::unique_ptr<SQLite::Statement> statement, std::string path);

  std::unique_ptr<SQLite::Statement> statement_;
  std::unique_ptr<Row::Columns> columns_;
  std::string path_;
};

// Used by one thread at a time; a worker opens its own.
class Connection {
 public:
  // Makes a new notebook with the schema of `version` (0: the newest); a failed one leaves no file.
  // Errors: already_exists, disk_full, read_only, not_found (folder).
  static Result<std::unique_ptr<Connection>> create(const std::string& path, const std::string& vfs = "", int version = 0);
  // Opens a notebook as it is; migrate() is a separate step. Errors: not_found, not_a_notebook, newer_version (for
  // read_write; a newer notebook opens read-only), damaged, read_only, locked (read_only, where an interrupted entry or
  // another program's journal has to be cleared away by opening it for writing once).
  static Result<std::unique_ptr<Connection>> open(const std::string& path, Access access, const std::string& vfs = "");
  // For reading, with the newest schema: a notebook of an older one is read from a copy in memory that was migrated; the
  // file stays as it is, and no file is left beside it. Errors: as open, and those of a migration.
  static Result<std::unique_ptr<Connection>> open_to_read(const std::string& path, const std::string& vfs = "");
  // A notebook in memory with the schema of `version` (0: the newest), for schema comparison and pure tests.
  static Result<std::unique_ptr<Connection>> in_memory(int version = 0);
  ~Connection();
  Connection(const Connection&) = delete;
  Connection& operator=(const Connection&) = delete;

  const std::string& path() const { return path_; }
  Access access() const { return access_; }
  Result<int> version();  // user_version
  // Runs the migrations still missing, each in one transaction with its user_version.
  Result<void> migrate(int to_version = 0);
  static int newest_version();

  // Runs a statement to its end. Errors as mapped from SQLite: disk_full, read_only, locked, damaged, inconsistent.
  Result<void> run(const Sql& sql, const Arguments& arguments = {});
  // Calls `reader` for each row; the statement is reset before this returns.
  Result<void> rows(const Sql& sql, const Arguments& arguments, const RowReader& reader);
  // The same for SQL derived from the catalogue; `key` names it in the statement cache.
  Result<void> run_derived(const std::string& text, const Arguments& arguments);
  Result<void> rows_derived(const std::string& text, const Arguments& arguments, const RowReader& reader);
  Result<Cursor> cursor_derived(const std::string& text, const Arguments& arguments);
  Result<Cursor> cursor(const Sql& sql, const Arguments& arguments);
  Result<std::int64_t> integer(const Sql& sql, const Arguments& arguments = {});  // first column of the first row; 0 if none

  // Everything `body` wrote becomes durable together, or nothing does. IMMEDIATE. Not to be nested.
  Result<void> transaction(const std::function<Result<void>()>& body);
  // After a commit that was done although it reported a fault: where this goes well, what the file holds outlasts a power cut.
  // Errors: as run.
  Result<void> confirm();
  // Statements of `body` see one state of the file.
  Result<void> snapshot(const std::function<Result<void>()>& body);
  // Compiles a statement without running it.
  Result<void> prepare_only(const Sql& sql);

  SQLite::Database& database() { return *database_; }

 private:
  struct Cache;
  Connection(std::unique_ptr<SQLite::Database> database, std::string path, Access access);
  static Result<std::unique_ptr<Connection>> bare_in_memory();
  // The migrations of a version run once in a program; a new notebook is a copy of what they made.
  Result<void> become_empty_notebook(int version);
  Result<void> configure();
  Result<void> verify_header();
  Result<void> each_row(std::string_view text, const Arguments& arguments, const RowReader* reader);

  std::unique_ptr<SQLite::Database> database_;
  std::unique_ptr<Cache> cache_;
  std::string path_;
  Access access_;
};

}  // namespace prillbook::store
