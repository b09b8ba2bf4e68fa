// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/history/verify.h"

#include <fmt/format.h>

#include <optional>
#include <string>
#include <utility>
#include <vector>

#include "core/history/record_sql.h"
#include "core/history/rows.h"
#include "core/history/statements.h"
#include "core/history/values.h"

namespace prillbook::history {
namespace {

using store::Value;

constexpr int offset_column = 11, old_type_column = 14, new_type_column = 15;
constexpr long rows_between_reports = 4096;

Error stopped() { return {ErrorCode::cancelled, "", "the check was stopped", {}}; }
bool is_stopped(const VerifyControls& controls) { return controls.cancellation && controls.cancellation->requested(); }

// Blobs read as text and would hash alike; real numbers are never written.
bool is_plain(const std::string& type) { return type == "null" || type == "integer" || type == "text"; }

class ChainCheck {
 public:
  explicit ChainCheck(store::FaultList& faults) : faults_(faults) {}

  void look_at(const store::Row& line) {
    const HistoryRow row = read_history_row(line);
    const std::string where = fmt::format("history {}", row.id);
    ++end_.rows;
    if (row.id != last_id_ + 1) faults_.add(where, fmt::format("follows row {}", last_id_));
    if (row.change_set != last_change_set_ && row.change_set != last_change_set_ + 1)
      faults_.add(where, fmt::format("change set {} follows {}", row.change_set, last_change_set_));
    if (!is_plain(line.text(old_type_column)) || !is_plain(line.text(new_type_column)))
      faults_.add(where, "holds a value of a type that is never written");
    if (line.integer(offset_column) != row.when.offset_minutes) faults_.add(where, "its offset from UTC can not be");
    if (row.hash != hash_of(row, end_.head)) faults_.add(where, "its hash does not fit the row and the one before it");
    look_at_codes(row, where);
    last_id_ = row.id;
    last_change_set_ = row.change_set;
    end_.head = row.hash;
  }
  const ChainEnd& end() const { return end_; }

 private:
  void look_at_codes(const HistoryRow& row, const std::string& where) {
    const EntitySpec* entity = find_entity(row.entity);
    if (!entity)
      faults_.add(where, fmt::format("tells of a kind of record with the code {}, which is not known", row.entity));
    else if (row.field != 0 && !find_field(*entity, row.field))
      faults_.add(where, fmt::format("tells of a field of {} with the code {}, which is not known", entity->table, row.field));
  }

  store::FaultList& faults_;
  ChainEnd end_;
  std::int64_t last_id_ = 0;
  std::int64_t last_change_set_ = 0;
};

std::string shown(const Value& value) {
  constexpr std::size_t enough = 80;
  if (const auto* number = std::get_if<std::int64_t>(&value)) return std::to_string(*number);
  if (const auto* text = std::get_if<std::string>(&value)) return fmt::format("'{}'", text->substr(0, enough));
  return "nothing";
}

// One record as its history tells it.
class Replayed {
 public:
  Replayed(const EntitySpec& entity, std::vector<const Field*> fields, store::FaultList& faults)
      : entity_(entity), fields_(std::move(fields)), faults_(faults) {}

  void begin(RecordId record) {
    record_ = record;
    made_ = false;
    values_.assign(fields_.size(), Value{});
  }
  // A row of rows_of_entity: record, field, old, new, id.
  void apply(const store::Row& row) {
    const std::int64_t code = row.integer(1);
    const std::string where = fmt::format("history {}", row.integer(4));
    if (code == 0) return make(row.value(2), row.value(3), where);
    Value* field = at(code);
    if (!field) return;  // told by the chain check
    if (!made_) faults_.add(where, fmt::format("changes {} before it was made", name()));
    if (*field != row.value(2))
      faults_.add(where, fmt::format("changes {} from {}, but it held {}", name(), shown(row.value(2)), shown(*field)));
    *field = row.value(3);
  }
  // A row of select_all_sql for the same record.
  void compare(const store::Row& row) {
    for (std::size_t i = 0; i < values_.size(); ++i)
      if (const Value held = row.value(static_cast<int>(i) + 1); held != values_[i])
        faults_.add(fmt::format("{}.{}", name(), fields_[i]->column),
                    fmt::format("holds {}, its history says {}", shown(held), shown(values_[i])));
  }
  std::string name() const { return fmt::format("{} {}", entity_.table, record_); }

 private:
  void make(const Value& old_value, const Value& new_value, const std::string& where) {
    if (made_) faults_.add(where, fmt::format("makes {} a second time", name()));
    made_ = true;
    const auto* text = std::get_if<std::string>(&new_value);
    const auto fields = text ? read_made_text(*text) : std::nullopt;
    if (!fields || !store::is_null(old_value)) {
      faults_.add(where, fmt::format("does not say how {} was made", name()));
      return;
    }
    for (std::size_t i = 0; i < values_.size(); ++i)
      if (fields_[i]->kind == FieldKind::flag) values_[i] = std::int64_t{0};
    for (const auto& [code, value] : *fields)
      if (Value* field = at(code))
        *field = value;
      else
        faults_.add(where, fmt::format("makes {} with a field of the code {}, which is not known", name(), code));
  }
  Value* at(std::int64_t code) {
    for (std::size_t i = 0; i < values_.size(); ++i)
      if (fields_[i]->code == code) return &values_[i];
    return nullptr;
  }

  const EntitySpec& entity_;
  std::vector<const Field*> fields_;  // those that the table has
  store::FaultList& faults_;
  RecordId record_ = 0;
  bool made_ = false;
  std::vector<Value> values_;
};

// The history of one kind of record and its table, both by id, walked side by side.
class Merge {
 public:
  Merge(const EntitySpec& entity, std::vector<const Field*> fields, store::FaultList& faults, const VerifyControls& controls)
      : entity_(entity),
        select_(select_all_sql(entity, fields)),
        faults_(faults),
        controls_(controls),
        replayed_(entity, std::move(fields), faults) {}

  // `rows_done` of `rows_total` is where the whole replay is.
  Result<std::int64_t> run(store::Connection& connection, long& rows_done, long rows_total) {
    std::int64_t records = 0;
    PRILLBOOK_ASSIGN(store::Cursor told, connection.cursor(sql::rows_of_entity, {static_cast<std::int64_t>(entity_.entity)}));
    PRILLBOOK_ASSIGN(store::Cursor held, connection.cursor_derived(select_, {}));
    PRILLBOOK_ASSIGN(bool more_told, told.next());
    PRILLBOOK_ASSIGN(bool more_held, held.next());
    while ((more_told || more_held) && !faults_.is_full()) {
      const RecordId told_id = more_told ? told.row().integer(0) : 0;
      const RecordId held_id = more_held ? held.row().integer(0) : 0;
      if (!more_told || (more_held && held_id < told_id)) {
        faults_.add(fmt::format("{} {}", entity_.table, held_id), "has no history");
        PRILLBOOK_ASSIGN(more_held, held.next());
        continue;
      }
      PRILLBOOK_ASSIGN(more_told, replay(told, told_id, rows_done, rows_total));
      if (more_held && held_id == told_id) {
        replayed_.compare(held.row());
        ++records;
        PRILLBOOK_ASSIGN(more_held, held.next());
      } else {
        faults_.add(replayed_.name(), "stands in the history but not in its table");
      }
    }
    return records;
  }

 private:
  // Leaves `told` on the first row of the next record; false past the last one.
  Result<bool> replay(store::Cursor& told, RecordId record, long& rows_done, long rows_total) {
    replayed_.begin(record);
    bool more = true;
    while (more && told.row().integer(0) == record) {
      replayed_.apply(told.row());
      if (++rows_done % rows_between_reports == 0) {
        if (is_stopped(controls_)) return stopped();
        if (controls_.progress) controls_.progress(rows_done, rows_total);
      }
      PRILLBOOK_ASSIGN(more, told.next());
    }
    return more;
  }

  const EntitySpec& entity_;
  std::string select_;
  store::FaultList& faults_;
  const VerifyControls& controls_;
  Replayed replayed_;
};

}  // namespace

Result<ChainEnd> verify_chain(store::Connection& connection, store::FaultList& faults, const VerifyControls& controls) {
  PRILLBOOK_ASSIGN(const std::int64_t total, connection.integer(sql::count_of_rows));
  ChainCheck check(faults);
  bool cancelled = false;
  PRILLBOOK_TRY(connection.rows(sql::rows_for_chain, {}, [&](const store::Row& row) {
    check.look_at(row);
    if (check.end().rows % rows_between_reports == 0) {
      cancelled = is_stopped(controls);
      if (controls.progress) controls.progress(check.end().rows, total);
    }
    return !cancelled && !faults.is_full();
  }));
  if (cancelled) return stopped();
  return check.end();
}

Result<std::int64_t> verify_replay(store::Connection& connection, store::FaultList& faults, const VerifyControls& controls) {
  PRILLBOOK_ASSIGN(const std::int64_t total, connection.integer(sql::count_of_rows));
  long rows_done = 0;
  std::int64_t records = 0;
  for (const EntitySpec& entity : catalogue()) {
    if (faults.is_full()) break;
    PRILLBOOK_ASSIGN(auto fields, held_fields(connection, entity));
    if (fields.empty()) continue;  // a table of a later version; a missing one is told by the structure check
    Merge merge(entity, std::move(fields), faults, controls);
    PRILLBOOK_ASSIGN(const std::int64_t checked, merge.run(connection, rows_done, total));
    records += checked;
  }
  return records;
}

}  // namespace prillbook::history
