// SPDX-License-Identifier: GPL-3.0-or-later
#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <filesystem>
#include <memory>
#include <sstream>

#include "core/exchange/dump_reader.h"
#include "core/exchange/notebook_dump.h"
#include "core/exchange/statements.h"
#include "core/history/contents.h"
#include "core/history/record_sql.h"
#include "core/history/rows.h"
#include "core/history/search_index.h"
#include "core/history/values.h"
#include "core/store/backup.h"
#include "core/store/part_file.h"
#include "core/upkeep/check.h"

namespace prillbook::exchange {
namespace {

using history::EntitySpec;
using history::Field;
using history::HistoryRow;
using store::Value;

Error refused(ErrorCode code, std::string_view key, std::string_view reason) {
  return {code, std::string(key), fmt::format("{}: {}", key, reason), {std::string(key)}};
}

// One key of a history row and where it goes; false where the value has the wrong type.
bool put(HistoryRow& row, const std::string& key, const Value& value, bool& known) {
  const auto number = [&](std::int64_t& to) {
    const auto* given = std::get_if<std::int64_t>(&value);
    if (given) to = *given;
    return given != nullptr;
  };
  const auto text = [&](std::string& to) {
    const auto* given = std::get_if<std::string>(&value);
    if (given) to = *given;
    return given != nullptr;
  };
  if (key == "id") return number(row.id);
  if (key == "change_set") return number(row.change_set);
  if (key == "takes_back") return number(row.takes_back.emplace());
  if (key == "gesture") return text(row.gesture);
  if (key == "entity") return number(row.entity);
  if (key == "record") return number(row.record);
  if (key == "field") return number(row.field);
  if (key == "who") return text(row.who);
  if (key == "utc_ms") return number(row.when.utc_ms);
  if (key == "why") return text(row.why.emplace());
  if (key == "old") return row.old_value = value, true;
  if (key == "new") return row.new_value = value, true;
  if (key == "offset_minutes") {
    std::int64_t minutes = 0;
    if (!number(minutes) || minutes != static_cast<std::int32_t>(minutes)) return false;
    row.when.offset_minutes = static_cast<std::int32_t>(minutes);
    return true;
  }
  if (key == "hash") {
    std::string hex;
    const auto hash = text(hex) ? history::hash_from_hex(hex) : std::nullopt;
    row.hash = hash.value_or(history::Hash{});
    return hash && history::hex(*hash) == hex;
  }
  known = false;
  return true;
}

constexpr std::array<std::string_view, 10> needed_keys{"id",    "change_set", "gesture", "entity",         "record",
                                                       "field", "who",        "utc_ms",  "offset_minutes", "hash"};

class Restorer : public DumpTaker {
 public:
  explicit Restorer(std::string path) : path_(std::move(path)) {}

  Result<void> begin(std::int64_t schema_version) override {
    if (schema_version > store::Connection::newest_version())
      return refused(ErrorCode::newer_version, "schema_version", "the dump was written by a newer program");
    if (schema_version < 1) return refused(ErrorCode::out_of_range, "schema_version", "there is no such version");
    PRILLBOOK_ASSIGN(connection_, store::Connection::create(path_, "", static_cast<int>(schema_version)));
    PRILLBOOK_TRY(connection_->run(sql::begin));
    return connection_->run(sql::defer_references);
  }

  Result<void> begin_table(const std::string& name) override {
    entity_ = history::find_entity(std::string_view(name));
    if (!entity_) return refused(ErrorCode::unknown_key, name, "there is no such table");
    PRILLBOOK_ASSIGN(fields_, history::held_fields(*connection_, *entity_));
    if (fields_.empty()) return refused(ErrorCode::unknown_key, name, "this version of the schema has no such table");
    insert_ = history::insert_sql(*entity_, fields_);
    last_id_ = 0;
    return {};
  }

  Result<void> table_row(const DumpRow& row) override {
    store::Arguments arguments(fields_.size() + 1);
    static const Value absent;
    for (const Field* field : fields_) {
      const auto given = std::find_if(row.begin(), row.end(), [&](const auto& cell) { return cell.first == field->column; });
      PRILLBOOK_TRY(history::check_value(*field, given == row.end() ? absent : given->second));
    }
    for (const auto& [key, value] : row) {
      const auto field =
          std::find_if(fields_.begin(), fields_.end(), [&, &name = key](const Field* f) { return f->column == name; });
      if (key != "id" && field == fields_.end())
        return refused(ErrorCode::unknown_key, key, fmt::format("{} has no such column", entity_->table));
      const auto place = key == "id" ? 0 : field - fields_.begin() + 1;
      arguments[static_cast<std::size_t>(place)] = store::as_argument(value);
    }
    const auto* id = std::get_if<std::int64_t>(&arguments.front());
    if (!id) return refused(ErrorCode::missing_key, "id", "a row needs a number as its id");
    if (*id <= last_id_) return refused(ErrorCode::out_of_range, "id", "rows stand by ascending id, from 1");
    last_id_ = *id;
    return connection_->run_derived(insert_, arguments);
  }

  Result<void> content_row(const DumpRow& row) override {
    PRILLBOOK_ASSIGN(const bool held, history::holds_contents(*connection_));
    if (!held) return refused(ErrorCode::unknown_key, "hash", "this version of the schema has no contents");
    std::string hash, text;
    for (const auto& [key, value] : row) {
      if (key != "hash" && key != "bytes") return refused(ErrorCode::unknown_key, key, "a content has no such key");
      const auto* given = std::get_if<std::string>(&value);
      if (!given) return refused(ErrorCode::wrong_type, key, "the value is not of the right type");
      (key == "hash" ? hash : text) = *given;
    }
    const auto bytes = history::bytes_of_base64(text);
    if (!bytes) return refused(ErrorCode::wrong_type, "bytes", "this is no base64");
    const auto kept = history::keep_content(*connection_, *bytes);
    if (!kept) return refused(kept.error().code, "bytes", kept.error().detail);
    if (*kept != hash) return refused(ErrorCode::inconsistent, "hash", "the hash does not fit the bytes");
    return {};
  }

  Result<void> history_row(const DumpRow& cells) override {
    HistoryRow row;
    for (const auto& [key, value] : cells) {
      bool known = true;
      if (!put(row, key, value, known)) return refused(ErrorCode::wrong_type, key, "the value is not of the right type");
      if (!known) return refused(ErrorCode::unknown_key, key, "the history has no such column");
    }
    for (const std::string_view needed : needed_keys)
      if (std::none_of(cells.begin(), cells.end(), [&](const auto& cell) { return cell.first == needed; }))
        return refused(ErrorCode::missing_key, needed, "the key is needed");
    if (row.id != last_history_id_ + 1) return refused(ErrorCode::out_of_range, "id", "history rows are numbered from 1");
    last_history_id_ = row.id;
    return history::append_history_row(*connection_, row);
  }

  // Everything is there: commit, and look the file over.
  Result<void> finish() {
    if (!connection_) return refused(ErrorCode::missing_key, "tables", "the dump has no tables");
    PRILLBOOK_TRY(history::rebuild_search_index(*connection_));
    PRILLBOOK_TRY(connection_->run(sql::commit));
    PRILLBOOK_ASSIGN(const upkeep::CheckReport report, upkeep::check_notebook(*connection_));
    auto outcome = upkeep::sound_or_error(report, "dump");
    if (outcome) return outcome;
    Error error = outcome.error();
    error.code = ErrorCode::inconsistent;
    return error;
  }
  void close() { connection_.reset(); }

 private:
  std::string path_;
  std::unique_ptr<store::Connection> connection_;
  const EntitySpec* entity_ = nullptr;
  std::vector<const Field*> fields_;
  std::string insert_;
  RecordId last_id_ = 0;
  std::int64_t last_history_id_ = 0;
};

}  // namespace

Result<void> restore_notebook(std::istream& dump, const std::string& path) {
  std::error_code code;
  if (std::filesystem::exists(std::filesystem::symlink_status(path, code)))
    return Error{ErrorCode::already_exists, "", fmt::format("{}: the file exists already", path), {path}};
  const std::string part = path + ".part";
  store::discard(part);
  Restorer restorer(part);
  Result<void> outcome = read_dump(dump, restorer);
  if (outcome) outcome = restorer.finish();
  restorer.close();
  if (outcome) outcome = store::move_into_place(part, path, false);
  if (!outcome) store::discard(part);
  return outcome;
}

Result<void> restore_notebook(std::string_view dump, const std::string& path) {
  std::istringstream stream{std::string(dump)};
  return restore_notebook(stream, path);
}

}  // namespace prillbook::exchange
