// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/history/rows.h"

#include <fmt/format.h>

#include <string>

#include "core/history/statements.h"
#include "core/store/structure.h"

namespace prillbook::history {

HistoryRow read_history_row(const store::Row& line) {
  HistoryRow row;
  row.id = line.integer(0);
  row.change_set = line.integer(1);
  row.takes_back = line.optional_integer(2);
  row.gesture = line.text(3);
  row.entity = line.integer(4);
  row.record = line.integer(5);
  row.field = line.integer(6);
  row.old_value = line.value(7);
  row.new_value = line.value(8);
  row.who = line.text(9);
  row.when.utc_ms = line.integer(10);
  row.when.offset_minutes = static_cast<std::int32_t>(line.integer(11));
  row.why = line.optional_text(12);
  row.hash = hash_from_bytes(line.blob(13)).value_or(Hash{});
  return row;
}

Result<void> each_history_row(store::Connection& connection, const std::function<Result<void>(const HistoryRow&)>& reader) {
  Result<void> outcome;
  PRILLBOOK_TRY(connection.rows(sql::all_rows, {}, [&](const store::Row& row) {
    outcome = reader(read_history_row(row));
    return outcome.ok();
  }));
  return outcome;
}

Result<std::vector<HistoryRow>> record_history(store::Connection& connection, Entity entity, RecordId record) {
  std::vector<HistoryRow> rows;
  PRILLBOOK_TRY(connection.rows(sql::rows_of_record, {static_cast<std::int64_t>(entity), record}, [&](const store::Row& row) {
    rows.push_back(read_history_row(row));
    return true;
  }));
  return rows;
}

Result<void> append_history_row(store::Connection& connection, const HistoryRow& row) {
  using store::Argument;
  using store::as_argument;
  const store::Blob hash{std::string_view(reinterpret_cast<const char*>(row.hash.data()), row.hash.size())};
  return connection.run(
      sql::append, {row.id, row.change_set, as_argument(row.takes_back), std::string_view(row.gesture), row.entity, row.record,
                    row.field, as_argument(row.old_value), as_argument(row.new_value), std::string_view(row.who), row.when.utc_ms,
                    std::int64_t{row.when.offset_minutes}, row.why ? Argument{std::string_view(*row.why)} : Argument{}, hash});
}

Result<std::vector<const Field*>> held_fields(store::Connection& connection, const EntitySpec& entity) {
  PRILLBOOK_ASSIGN(const auto columns, store::columns_of(connection, std::string(entity.table)));
  std::vector<const Field*> fields;
  for (const std::string& column : columns) {
    if (column == "id") continue;
    const Field* field = find_field(entity, std::string_view(column));
    if (!field)
      return Error{ErrorCode::inconsistent,
                   std::string(entity.table),
                   fmt::format("the column {} of {} is not known", column, entity.table),
                   {column}};
    fields.push_back(field);
  }
  return fields;
}

}  // namespace prillbook::history
