// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/exchange/notebook_dump.h"

#include <fmt/format.h>

#include <iterator>
#include <nlohmann/json.hpp>

#include "core/base/text.h"
#include "core/history/contents.h"
#include "core/history/record_sql.h"
#include "core/history/rows.h"

namespace prillbook::exchange {
namespace {

using history::EntitySpec;
using history::HistoryRow;
using store::Value;

// One JSON object on one line. Absent values are left out.
class Line {
 public:
  void put(std::string_view key, const Value& value) {
    if (store::is_null(value)) return;
    fmt::format_to(std::back_inserter(text_), "{}\"{}\":", text_.size() > 1 ? "," : "", key);
    if (const auto* number = std::get_if<std::int64_t>(&value))
      fmt::format_to(std::back_inserter(text_), "{}", *number);
    else
      put_text(key, std::get<std::string>(value));
  }
  Result<std::string> take(std::string_view where) {
    if (!bad_key_.empty())
      return Error{ErrorCode::damaged,
                   fmt::format("{}.{}", where, bad_key_),
                   fmt::format("{}.{} holds bytes that are no text", where, bad_key_),
                   {}};
    return std::move(text_) + "}";
  }

 private:
  void put_text(std::string_view key, const std::string& text) {
    if (is_utf8(text))
      text_ += nlohmann::json(text).dump();
    else
      bad_key_ = key;
  }

  std::string text_ = "{";
  std::string bad_key_;
};

Result<std::string> line_of(const HistoryRow& row) {
  Line line;
  line.put("id", row.id);
  line.put("change_set", row.change_set);
  if (row.takes_back) line.put("takes_back", *row.takes_back);
  line.put("gesture", row.gesture);
  line.put("entity", row.entity);
  line.put("record", row.record);
  line.put("field", row.field);
  line.put("old", row.old_value);
  line.put("new", row.new_value);
  line.put("who", row.who);
  line.put("utc_ms", row.when.utc_ms);
  line.put("offset_minutes", std::int64_t{row.when.offset_minutes});
  if (row.why) line.put("why", *row.why);
  line.put("hash", history::hex(row.hash));
  return line.take(fmt::format("history {}", row.id));
}

// Lines of an array with commas between them.
class Lines {
 public:
  explicit Lines(const DumpSink& sink) : sink_(sink) {}
  Result<void> put(Result<std::string> line) {
    if (!line) return line.error();
    const std::string text = (first_ ? "\n" : ",\n") + *std::move(line);
    first_ = false;
    return sink_(text);
  }

 private:
  const DumpSink& sink_;
  bool first_ = true;
};

Result<void> dump_table(store::Connection& connection, const EntitySpec& entity, const std::vector<const history::Field*>& fields,
                        const DumpSink& sink) {
  Lines lines(sink);
  Result<void> outcome;
  PRILLBOOK_TRY(connection.rows_derived(history::select_all_sql(entity, fields), {}, [&](const store::Row& row) {
    Line line;
    line.put("id", row.integer(0));
    for (std::size_t i = 0; i < fields.size(); ++i) line.put(fields[i]->column, row.value(static_cast<int>(i) + 1));
    outcome = lines.put(line.take(fmt::format("{} {}", entity.table, row.integer(0))));
    return outcome.ok();
  }));
  return outcome;
}

Result<void> dump_tables(store::Connection& connection, const DumpSink& sink) {
  bool first = true;
  for (const EntitySpec& entity : history::catalogue()) {
    PRILLBOOK_ASSIGN(const auto fields, history::held_fields(connection, entity));
    if (fields.empty()) continue;
    PRILLBOOK_TRY(sink(fmt::format("{}\n\"{}\":[", first ? "" : ",", entity.table)));
    PRILLBOOK_TRY(dump_table(connection, entity, fields, sink));
    PRILLBOOK_TRY(sink("]"));
    first = false;
  }
  return {};
}

// Photographs and the like; a notebook of a schema without them has no such key.
Result<void> dump_contents(store::Connection& connection, const DumpSink& sink) {
  PRILLBOOK_ASSIGN(const bool held, history::holds_contents(connection));
  if (!held) return {};
  PRILLBOOK_TRY(sink("\"contents\":["));
  Lines lines(sink);
  PRILLBOOK_TRY(history::each_content(connection, [&](const std::string& hash, const std::string& bytes) {
    Line line;
    line.put("hash", hash);
    line.put("bytes", history::base64(bytes));
    return lines.put(line.take(fmt::format("content {}", hash)));
  }));
  return sink("],\n");
}

Result<void> dump_whole(store::Connection& connection, const DumpSink& sink) {
  PRILLBOOK_ASSIGN(const int version, connection.version());
  if (version > store::Connection::newest_version())
    return Error{ErrorCode::newer_version,
                 "",
                 fmt::format("{}: the notebook was written by a newer program", connection.path()),
                 {connection.path()}};
  PRILLBOOK_TRY(sink(fmt::format("{{\"format\":\"{}\",\"format_version\":{},\"schema_version\":{},\n\"tables\":{{",
                                 notebook_format, notebook_format_version, version)));
  PRILLBOOK_TRY(dump_tables(connection, sink));
  PRILLBOOK_TRY(sink("},\n"));
  PRILLBOOK_TRY(dump_contents(connection, sink));
  PRILLBOOK_TRY(sink("\"history\":["));
  Lines lines(sink);
  PRILLBOOK_TRY(history::each_history_row(connection, [&](const HistoryRow& row) { return lines.put(line_of(row)); }));
  return sink("]}\n");
}

}  // namespace

Result<void> dump_notebook(store::Connection& connection, const DumpSink& sink) {
  return connection.snapshot([&] { return dump_whole(connection, sink); });
}

Result<std::string> dump_notebook(store::Connection& connection) {
  std::string text;
  PRILLBOOK_TRY(dump_notebook(connection, [&](std::string_view piece) -> Result<void> {
    text += piece;
    return {};
  }));
  return text;
}

}  // namespace prillbook::exchange
