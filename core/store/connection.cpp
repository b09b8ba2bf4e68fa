// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/store/connection.h"

#include <SQLiteCpp/Backup.h>
#include <SQLiteCpp/Column.h>
#include <SQLiteCpp/Database.h>
#include <SQLiteCpp/Statement.h>
#include <SQLiteCpp/Transaction.h>
#include <fmt/format.h>
#include <sqlite3.h>

#include <algorithm>
#include <cstddef>
#include <filesystem>
#include <iterator>
#include <map>
#include <mutex>
#include <unordered_map>

#include "core/store/faults.h"
#include "core/store/migration_texts.h"
#include "core/store/statements.h"

namespace prillbook::store {
namespace {

constexpr int newest = std::size(migration_texts);
constexpr int busy_timeout_ms = 2000;
// A connection and its statements belong to one thread at a time, so that SQLite need not lock at every call.
constexpr int for_writing = SQLITE_OPEN_READWRITE | SQLITE_OPEN_NOMUTEX;

// A notebook file that is too short to hold the header of a database is told apart from a damaged one.
Result<void> look_at_file(const std::string& path) {
  std::error_code code;
  const auto status = std::filesystem::status(path, code);
  if (code || !std::filesystem::exists(status))
    return Error{ErrorCode::not_found, "", fmt::format("{}: there is no such file", path), {path}};
  if (!std::filesystem::is_regular_file(status))
    return Error{ErrorCode::not_a_notebook, "", fmt::format("{}: this is not a file", path), {path}};
  const auto size = std::filesystem::file_size(path, code);
  if (!code && size < 100) return Error{ErrorCode::not_a_notebook, "", fmt::format("{}: the file is no notebook", path), {path}};
  return {};
}

// A notebook that another program has turned to a write-ahead log can not be read without leaving files beside it;
// opening it for writing turns it back. Read through SQLite's own file layer: a descriptor of our own would drop the
// locks of other connections of this process when it is closed.
Result<void> look_at_header(const std::string& path, const std::string& vfs_name) {
  constexpr int read_version_at = 19, write_ahead = 2;
  sqlite3_vfs* vfs = sqlite3_vfs_find(vfs_name.empty() ? nullptr : vfs_name.c_str());
  std::error_code code;
  const std::string real = std::filesystem::canonical(path, code).string();
  if (!vfs || code) return {};
  std::vector<std::max_align_t> room(static_cast<std::size_t>(vfs->szOsFile) / sizeof(std::max_align_t) + 1);
  auto* file = reinterpret_cast<sqlite3_file*>(room.data());
  // The file layer wants its name to be followed by an empty list of parameters.
  const std::string name = real + std::string(3, '\0');
  int flags = SQLITE_OPEN_READONLY | SQLITE_OPEN_MAIN_DB;
  if (vfs->xOpen(vfs, name.c_str(), file, flags, &flags) != SQLITE_OK) return {};
  unsigned char version = 0;
  const int read = file->pMethods->xRead(file, &version, 1, read_version_at);
  file->pMethods->xClose(file);
  if (read == SQLITE_OK && version == write_ahead)
    return Error{ErrorCode::locked,
                 "",
                 fmt::format("{}: another program changed how the file is written; open the notebook for writing once", path),
                 {path}};
  return {};
}

// `bind_text(index, text)` says how a text reaches the statement.
template <class BindText>
void bind(SQLite::Statement& statement, const Arguments& arguments, BindText&& bind_text) {
  if (int(arguments.size()) < statement.getBindParameterCount()) statement.clearBindings();
  int index = 0;
  for (const Argument& argument : arguments) {
    ++index;
    if (const auto* number = std::get_if<std::int64_t>(&argument))
      statement.bind(index, *number);
    else if (const auto* text = std::get_if<std::string_view>(&argument))
      bind_text(index, *text);
    else if (const auto* blob = std::get_if<Blob>(&argument))
      statement.bind(index, blob->bytes.data(), int(blob->bytes.size()));
    else
      statement.bind(index);
  }
}

// Made once for a statement that stands on a row; they show whatever row it stands on.
Row::Columns columns_of(SQLite::Statement& statement) {
  Row::Columns columns;
  for (int i = 0; i < statement.getColumnCount(); ++i) columns.push_back(statement.getColumn(i));
  return columns;
}

// A cached statement and the texts bound to it: SQLite reads them from here, so that a load of many records copies each
// once and asks for no memory.
struct Prepared {
  SQLite::Statement statement;
  std::vector<std::string> texts;
  Row::Columns columns;  // from the first row on

  Prepared(SQLite::Database& database, const std::string& text) : statement(database, text) {}

  void take(const Arguments& arguments) {
    texts.resize(std::max(texts.size(), arguments.size()));
    bind(statement, arguments, [&](int index, std::string_view text) {
      std::string& kept = texts[std::size_t(index) - 1];
      kept.assign(text);
      statement.bindNoCopy(index, kept);
    });
  }
};

// A cached statement is reset however its use ends, so that no read lock outlives a query.
class Use {
 public:
  explicit Use(SQLite::Statement& statement) : statement_(statement) {}
  ~Use() { statement_.tryReset(); }
  Use(const Use&) = delete;
  Use& operator=(const Use&) = delete;

 private:
  SQLite::Statement& statement_;
};

}  // namespace

bool Row::is_null(int column) const { return (*columns_)[std::size_t(column)].isNull(); }
std::int64_t Row::integer(int column) const { return (*columns_)[std::size_t(column)].getInt64(); }
std::optional<std::int64_t> Row::optional_integer(int column) const {
  if (is_null(column)) return std::nullopt;
  return integer(column);
}
std::string Row::text(int column) const { return (*columns_)[std::size_t(column)].getString(); }
std::optional<std::string> Row::optional_text(int column) const {
  if (is_null(column)) return std::nullopt;
  return text(column);
}
std::string Row::blob(int column) const { return text(column); }
Value Row::value(int column) const {
  const ValueView seen = view(column);
  if (const auto* number = std::get_if<std::int64_t>(&seen)) return *number;
  if (const auto* text = std::get_if<std::string_view>(&seen)) return std::string(*text);
  return std::monostate{};
}
ValueView Row::view(int column) const {
  const SQLite::Column& cell = (*columns_)[std::size_t(column)];
  switch (cell.getType()) {
    case SQLITE_NULL: return std::monostate{};
    case SQLITE_INTEGER: return cell.getInt64();
    default: break;
  }
  const auto* const bytes = static_cast<const char*>(cell.getBlob());
  return std::string_view(bytes, bytes ? std::size_t(cell.getBytes()) : 0);
}
int Row::columns() const { return int(columns_->size()); }

Argument as_argument(const Value& value) {
  if (const auto* number = std::get_if<std::int64_t>(&value)) return *number;
  if (const auto* text = std::get_if<std::string>(&value)) return std::string_view(*text);
  return std::monostate{};
}

Cursor::Cursor(std::unique_ptr<SQLite::Statement> statement, std::string path)
    : statement_(std::move(statement)), columns_(std::make_unique<Row::Columns>()), path_(std::move(path)) {}
Cursor::Cursor(Cursor&&) noexcept = default;
Cursor& Cursor::operator=(Cursor&&) noexcept = default;
Cursor::~Cursor() = default;

Result<bool> Cursor::next() {
  return guarded(path_, [&] {
    const bool there = statement_->executeStep();
    if (there && columns_->empty()) *columns_ = columns_of(*statement_);
    return there;
  });
}

struct Connection::Cache {
  // Found by a view: no copy of the text for a statement that is there already.
  struct Hasher : std::hash<std::string_view> {
    using is_transparent = void;
  };
  std::unordered_map<std::string, Prepared, Hasher, std::equal_to<>> statements;

  Prepared& get(SQLite::Database& database, std::string_view text) {
    if (const auto found = statements.find(text); found != statements.end()) return found->second;
    std::string key(text);
    Prepared prepared(database, key);
    return statements.emplace(std::move(key), std::move(prepared)).first->second;
  }
};

Connection::Connection(std::unique_ptr<SQLite::Database> database, std::string path, Access access)
    : database_(std::move(database)), cache_(std::make_unique<Cache>()), path_(std::move(path)), access_(access) {}

Connection::~Connection() = default;

int Connection::newest_version() { return newest; }

Result<void> Connection::configure() {
  return guarded(path_, [&] {
    sqlite3* handle = database_->getHandle();
    sqlite3_extended_result_codes(handle, 1);
    sqlite3_db_config(handle, SQLITE_DBCONFIG_DEFENSIVE, 1, nullptr);
    sqlite3_db_config(handle, SQLITE_DBCONFIG_DQS_DML, 0, nullptr);
    sqlite3_db_config(handle, SQLITE_DBCONFIG_DQS_DDL, 0, nullptr);
    sqlite3_db_config(handle, SQLITE_DBCONFIG_TRUSTED_SCHEMA, 0, nullptr);
    database_->setBusyTimeout(busy_timeout_ms);
    database_->exec("PRAGMA foreign_keys = ON; PRAGMA recursive_triggers = ON; PRAGMA cell_size_check = ON;");
    // Room for the pages that a client's list of ten thousand samples changes: with less, SQLite writes and syncs them in
    // the middle of the entry.
    database_->exec("PRAGMA cache_size = -16384");
    // EXTRA also syncs the folder after the journal is gone: without it a power cut can bring the journal back and
    // undo an entry that was shown as written.
    if (access_ == Access::read_write) database_->exec("PRAGMA journal_mode = DELETE; PRAGMA synchronous = EXTRA;");
  });
}

Result<void> Connection::verify_header() {
  PRILLBOOK_ASSIGN(const int id, guarded(path_, [&] { return database_->execAndGet("PRAGMA application_id").getInt(); }));
  if (id != application_id)
    return Error{ErrorCode::not_a_notebook, "", fmt::format("{}: the file is no notebook", path_), {path_}};
  PRILLBOOK_ASSIGN(const int stored, version());
  if (stored < 1) return Error{ErrorCode::damaged, "", fmt::format("{}: the notebook has no version", path_), {path_}};
  if (stored > newest && access_ == Access::read_write)
    return Error{
        ErrorCode::newer_version,
        "",
        fmt::format("{}: the notebook was written by a newer program (version {}, this one knows {})", path_, stored, newest),
        {path_, std::to_string(stored), std::to_string(newest)}};
  return {};
}

Result<std::unique_ptr<Connection>> Connection::create(const std::string& path, const std::string& vfs, int version) {
  if (std::error_code code; std::filesystem::exists(path, code))
    return Error{ErrorCode::already_exists, "", fmt::format("{}: the file exists already", path), {path}};
  PRILLBOOK_ASSIGN(auto database, guarded(path, [&] {
                     return std::make_unique<SQLite::Database>(path, for_writing | SQLITE_OPEN_CREATE, 0, vfs);
                   }));
  std::unique_ptr<Connection> connection(new Connection(std::move(database), path, Access::read_write));
  Result<void> made = connection->configure();
  if (made) made = connection->become_empty_notebook(version);
  if (made) return connection;
  connection.reset();
  std::error_code ignored;
  std::filesystem::remove(path, ignored);
  std::filesystem::remove(path + "-journal", ignored);
  return made.error();
}

Result<std::unique_ptr<Connection>> Connection::open(const std::string& path, Access access, const std::string& vfs) {
  PRILLBOOK_TRY(look_at_file(path));
  if (access == Access::read_only) PRILLBOOK_TRY(look_at_header(path, vfs));
  const int flags = access == Access::read_only ? SQLITE_OPEN_READONLY | SQLITE_OPEN_NOMUTEX : for_writing;
  PRILLBOOK_ASSIGN(auto database, guarded(path, [&] { return std::make_unique<SQLite::Database>(path, flags, 0, vfs); }));
  if (access == Access::read_write && sqlite3_db_readonly(database->getHandle(), "main") == 1)
    return Error{ErrorCode::read_only, "", fmt::format("{}: the file can not be written", path), {path}};
  std::unique_ptr<Connection> connection(new Connection(std::move(database), path, access));
  PRILLBOOK_TRY(connection->configure());
  PRILLBOOK_TRY(connection->verify_header());
  return connection;
}

Result<std::unique_ptr<Connection>> Connection::open_to_read(const std::string& path, const std::string& vfs) {
  PRILLBOOK_ASSIGN(auto file, open(path, Access::read_only, vfs));
  PRILLBOOK_ASSIGN(const int held, file->version());
  if (held >= newest) return file;
  PRILLBOOK_ASSIGN(auto database, guarded(path, [&] {
                     auto copy = std::make_unique<SQLite::Database>(":memory:", for_writing | SQLITE_OPEN_CREATE);
                     SQLite::Backup(*copy, file->database()).executeStep(-1);
                     return copy;
                   }));
  std::unique_ptr<Connection> connection(new Connection(std::move(database), path, Access::read_only));
  PRILLBOOK_TRY(connection->configure());
  PRILLBOOK_TRY(connection->migrate());
  PRILLBOOK_TRY(guarded(path, [&] { connection->database_->exec("PRAGMA query_only = ON"); }));
  return connection;
}

Result<std::unique_ptr<Connection>> Connection::bare_in_memory() {
  PRILLBOOK_ASSIGN(auto database, guarded(":memory:", [] {
                     return std::make_unique<SQLite::Database>(":memory:", for_writing | SQLITE_OPEN_CREATE);
                   }));
  std::unique_ptr<Connection> connection(new Connection(std::move(database), ":memory:", Access::read_write));
  PRILLBOOK_TRY(connection->configure());
  return connection;
}

Result<void> Connection::become_empty_notebook(int version) {
  static std::mutex one_at_a_time;
  static std::map<int, std::unique_ptr<Connection>> made;
  const std::scoped_lock lock(one_at_a_time);
  std::unique_ptr<Connection>& pattern = made[version];
  if (!pattern) {
    PRILLBOOK_ASSIGN(auto first, bare_in_memory());
    PRILLBOOK_TRY(first->migrate(version));
    pattern = std::move(first);
  }
  PRILLBOOK_ASSIGN(const int step,
                   guarded(path_, [&] { return SQLite::Backup(*database_, *pattern->database_).executeStep(-1); }));
  if (step != SQLITE_DONE) return Error{ErrorCode::locked, "", fmt::format("{}: the file is in use", path_), {path_}};
  return {};
}

Result<std::unique_ptr<Connection>> Connection::in_memory(int version) {
  PRILLBOOK_ASSIGN(auto connection, bare_in_memory());
  PRILLBOOK_TRY(connection->become_empty_notebook(version));
  return connection;
}

Result<int> Connection::version() {
  return guarded(path_, [&] { return database_->execAndGet("PRAGMA user_version").getInt(); });
}

Result<void> Connection::migrate(int to_version) {
  const int target = to_version == 0 ? newest : to_version;
  PRILLBOOK_ASSIGN(const int from, version());
  for (int number = from + 1; number <= target; ++number) {
    PRILLBOOK_TRY(guarded(path_, [&] {
      SQLite::Transaction transaction(*database_, SQLite::TransactionBehavior::IMMEDIATE);
      database_->exec(migration_texts[number - 1]);
      database_->exec(fmt::format("PRAGMA application_id = {}; PRAGMA user_version = {};", application_id, number));
      transaction.commit();
    }));
  }
  return {};
}

Result<void> Connection::each_row(std::string_view text, const Arguments& arguments, const RowReader* reader) {
  return guarded(path_, [&] {
    Prepared& prepared = cache_->get(*database_, text);
    SQLite::Statement& statement = prepared.statement;
    const Use use(statement);
    prepared.take(arguments);
    while (statement.executeStep()) {
      if (!reader) continue;
      if (prepared.columns.empty()) prepared.columns = columns_of(statement);
      if (!(*reader)(Row(prepared.columns))) break;
    }
  });
}

Result<void> Connection::run(const Sql& sql, const Arguments& arguments) { return each_row(sql.text, arguments, nullptr); }

Result<void> Connection::rows(const Sql& sql, const Arguments& arguments, const RowReader& reader) {
  return each_row(sql.text, arguments, &reader);
}

Result<void> Connection::run_derived(const std::string& text, const Arguments& arguments) {
  return each_row(text, arguments, nullptr);
}

Result<void> Connection::rows_derived(const std::string& text, const Arguments& arguments, const RowReader& reader) {
  return each_row(text, arguments, &reader);
}

Result<Cursor> Connection::cursor_derived(const std::string& text, const Arguments& arguments) {
  return guarded(path_, [&] {
    auto statement = std::make_unique<SQLite::Statement>(*database_, text);
    bind(*statement, arguments, [&](int index, std::string_view kept) { statement->bind(index, std::string(kept)); });
    return Cursor(std::move(statement), path_);
  });
}

Result<Cursor> Connection::cursor(const Sql& sql, const Arguments& arguments) { return cursor_derived(sql.text, arguments); }

Result<std::int64_t> Connection::integer(const Sql& sql, const Arguments& arguments) {
  std::int64_t value = 0;
  PRILLBOOK_TRY(rows(sql, arguments, [&](const Row& row) {
    value = row.integer(0);
    return false;
  }));
  return value;
}

Result<void> Connection::prepare_only(const Sql& sql) {
  return guarded(path_, [&] { cache_->get(*database_, sql.text); });
}

Result<void> Connection::transaction(const std::function<Result<void>()>& body) {
  auto begun = guarded(path_, [&] { database_->exec("BEGIN IMMEDIATE"); });
  if (!begun) return begun;
  Result<void> outcome = body();
  if (outcome) outcome = guarded(path_, [&] { database_->exec("COMMIT"); });
  // SQLite takes the transaction back by itself after some faults; a second ROLLBACK would then only say so.
  if (!outcome && sqlite3_get_autocommit(database_->getHandle()) == 0) (void)database_->tryExec("ROLLBACK");
  return outcome;
}

// A transaction that changes nothing but the counter in the header. At its end its journal is gone and the folder synced.
Result<void> Connection::confirm() {
  return transaction([&] { return run(sql::write_application_id); });
}

Result<void> Connection::snapshot(const std::function<Result<void>()>& body) {
  PRILLBOOK_TRY(guarded(path_, [&] { database_->exec("BEGIN DEFERRED"); }));
  Result<void> outcome = body();
  (void)database_->tryExec("ROLLBACK");
  return outcome;
}

}  // namespace prillbook::store
