// SPDX-License-Identifier: GPL-3.0-or-later
// What the cells of a notebook can hold when no program of ours wrote them. A changed file costs a second to open and check;
// here the notebook of the demonstration stays open, and its tables take anything.
#include <SQLiteCpp/Database.h>
#include <SQLiteCpp/Statement.h>
#include <sqlite3.h>

#include <numeric>

#include "core/exchange/records.h"
#include "core/findings/board.h"
#include "core/history/fields.h"
#include "core/history/record_sql.h"
#include "core/readings/entry.h"
#include "tests/fuzz/targets.h"
#include "tests/support/files.h"
#include "tests/support/notebook.h"

namespace prillbook::fuzz {
namespace {

using history::EntitySpec;
using history::Field;

class OpenTables {
 public:
  OpenTables() {
    demand(exchange::load_records(*notebook_.journal, testing_support::file_text(PRILLBOOK_SOURCE_DIR "/sample-data/demo.json"))
               .ok(),
           "the demonstration is good");
    lift_constraints();
    for (const EntitySpec& spec : history::catalogue())
      for (const auto& record : *history::load_all(connection(), spec.entity)) ids_[&spec].push_back(record.id());
  }

  store::Connection& connection() { return *notebook_.connection; }
  std::span<const RecordId> records(const EntitySpec& spec) { return ids_[&spec]; }
  void run(const std::string& sql) { (void)connection().run_derived(sql, {}); }

 private:
  void lift_constraints() {
    SQLite::Database& database = connection().database();
    sqlite3_db_config(database.getHandle(), SQLITE_DBCONFIG_DEFENSIVE, 0, nullptr);
    std::vector<std::string> triggers;
    SQLite::Statement named(database, "SELECT name FROM sqlite_schema WHERE type = 'trigger'");
    while (named.executeStep()) triggers.push_back(named.getColumn(0).getString());
    named.reset();
    for (const std::string& trigger : triggers) database.exec("DROP TRIGGER " + trigger);
    database.exec(
        "PRAGMA foreign_keys = OFF; PRAGMA ignore_check_constraints = ON; PRAGMA writable_schema = ON;"
        "UPDATE sqlite_schema SET sql = replace(replace(replace(sql, ') STRICT', ')'), 'IS NOT NULL', 'NOTNULL'), ' NOT NULL', "
        "'')"
        "  WHERE type = 'table';"
        "PRAGMA writable_schema = RESET");
    demand(takes_a_word_for_a_number(), "the tables take anything");
  }

  bool takes_a_word_for_a_number() {
    const Field& number = history::fields::sample::consignment;
    run("SAVEPOINT before");
    (void)connection().run_derived(history::update_sql(number), {std::string_view("x"), RecordId{1}});
    const auto record = history::load_record(connection(), history::Entity::sample, 1);
    const bool taken = record.ok() && record->optional_text(number) == "x";
    run("ROLLBACK TO before");
    run("RELEASE before");
    return taken;
  }

  testing_support::MemoryNotebook notebook_;
  std::map<const EntitySpec*, std::vector<RecordId>> ids_;
};

// Takes the input apart from its front; nothing is left at its end.
class Bytes {
 public:
  explicit Bytes(std::string_view left) : left_(left) {}
  bool empty() const { return left_.empty(); }
  std::size_t next() {
    if (left_.empty()) return 0;
    const auto byte = static_cast<unsigned char>(left_.front());
    left_.remove_prefix(1);
    return byte;
  }
  std::string_view next(std::size_t count) {
    const std::string_view taken = left_.substr(0, count);
    left_.remove_prefix(taken.size());
    return taken;
  }

 private:
  std::string_view left_;
};

store::Value changed(const store::Value& before, Bytes& bytes) {
  const std::size_t how = bytes.next();
  if (how % 5 == 0) return {};
  if (how % 5 == 1) {
    const std::string_view digits = bytes.next(1 + how / 5 % 8);
    return std::accumulate(digits.begin(), digits.end(), std::int64_t{how < 128 ? 0 : -1},
                           [](std::int64_t value, char c) { return std::int64_t(std::uint64_t(value) << 8 | std::uint8_t(c)); });
  }
  if (how % 5 == 2) return std::string(bytes.next(how / 5));
  const auto* const kept = std::get_if<std::string>(&before);
  std::string text = kept ? *kept : "";
  const std::size_t at = text.empty() ? 0 : bytes.next() % text.size();
  if (how % 5 == 3 && !text.empty()) return text.replace(at, 1, bytes.next(1));
  return text.insert(at, bytes.next(1 + how / 5 % 6));
}

struct Touched {
  const EntitySpec* spec;
  RecordId record;
};

std::vector<Touched> change_cells(OpenTables& tables, std::string_view input) {
  std::vector<Touched> touched;
  for (Bytes bytes(input); !bytes.empty() && touched.size() < 8;) {
    const EntitySpec& spec = history::catalogue()[bytes.next() % history::catalogue().size()];
    const std::size_t which = bytes.next(), column = bytes.next();
    const auto records = tables.records(spec);
    if (records.empty()) continue;
    const RecordId id = records[which % records.size()];
    const Field& field = *spec.fields[column % spec.fields.size()];
    const auto before = history::load_record(tables.connection(), spec.entity, id);
    const store::Value value = changed(before.ok() ? before->value(field) : store::Value(), bytes);
    (void)tables.connection().run_derived(history::update_sql(field), {store::as_argument(value), id});
    touched.push_back({&spec, id});
  }
  return touched;
}

void read_record(store::Connection& connection, const Touched& one) {
  const auto record = history::load_record(connection, one.spec->entity, one.record);
  if (!record.ok()) return;
  for (const Field* field : one.spec->fields) {
    (void)record->optional_whole(*field);
    if (field->measure) (void)readings::figure_of(*record, *field);
    if (const auto text = record->text_view(*field)) (void)parse_iso(*text);
  }
}

// Every sample with all that is computed of it and said about it.
void read_everything(store::Connection& connection) {
  findings::Board board(connection);
  if (!board.begin(*parse_iso("2026-06-01T09:00+02:00")).ok()) return;
  while (board.owed() > 0)
    if (!board.look_at(200).ok()) return;
}

}  // namespace

void cells(std::string_view bytes) {
  static OpenTables tables;
  tables.run("SAVEPOINT untouched");
  for (const Touched& one : change_cells(tables, bytes)) read_record(tables.connection(), one);
  constexpr std::size_t one_in = 256;  // the whole demonstration takes a hundred times as long as a record
  if (std::hash<std::string_view>()(bytes) % one_in == 0) read_everything(tables.connection());
  tables.run("ROLLBACK TO untouched");
  tables.run("RELEASE untouched");
}

}  // namespace prillbook::fuzz
