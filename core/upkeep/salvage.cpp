// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/upkeep/salvage.h"

#include <fmt/format.h>

#include <algorithm>
#include <filesystem>
#include <optional>
#include <set>
#include <tuple>

#include "core/history/contents.h"
#include "core/history/fields.h"
#include "core/history/record_sql.h"
#include "core/history/rows.h"
#include "core/history/search_index.h"
#include "core/history/values.h"
#include "core/readings/reading.h"
#include "core/store/backup.h"
#include "core/store/mended_schema.h"
#include "core/store/part_file.h"
#include "core/upkeep/check.h"
#include "core/upkeep/copy_rule.h"
#include "core/upkeep/mended_head.h"
#include "core/upkeep/salvage_read.h"
#include "core/upkeep/salvage_schema.h"
#include "core/upkeep/statements.h"

namespace prillbook::upkeep {
namespace {

namespace fs = std::filesystem;
using history::Entity;
using history::EntitySpec;
using history::Field;
using history::FieldKind;
using history::HistoryRow;
using store::Connection;
using store::Value;

constexpr std::string_view salvage_gesture = "salvage";
using RecordKey = std::pair<Entity, RecordId>;

// An entry that made a record is believed only where it reads.
std::vector<std::pair<std::int64_t, Value>> made_fields(const HistoryRow& row) {
  return history::read_made_text(std::get<std::string>(row.new_value)).value();
}

bool is_valid(const Field& field, const Value& value) {
  if (!history::check_value(field, value)) return false;
  if (field.kind != FieldKind::reading || store::is_null(value)) return true;
  return readings::decode(std::get<std::string>(value), *field.measure).ok();
}

// A record as the entries that are left tell it, and as it is to stand in the new notebook.
struct Saved {
  bool made = false;  // by an entry
  Cells told, wanted;
};

// Puts the new notebook together: first in memory, then in the file.
class Salvage {
 public:
  Salvage(Wreck wreck, FieldsOf fields, const SalvageOptions& options, Salvaged& report)
      : wreck_(std::move(wreck)), fields_(std::move(fields)), options_(options), report_(report) {}

  void settle() {
    for (const HistoryRow& row : wreck_.entries) replay(row);
    for (auto& [key, saved] : records_) saved.wanted = saved.told;
    for (const auto& [entity, rows] : wreck_.tables)
      for (const auto& [id, cells] : rows) compare_with_table({entity, id}, cells);
    drop_what_was_not_made();
    drop_contents_that_are_gone();
    while (drop_one_round()) {
    }
  }
  // False where a record was refused and dropped: then everything is written anew.
  Result<bool> write(Connection& connection);

 private:
  std::size_t place(const RecordKey& key, std::int64_t code) const {
    const auto& fields = fields_.at(key.first);
    return std::size_t(std::find_if(fields.begin(), fields.end(), [&](const Field* f) { return f->code == code; }) -
                       fields.begin());
  }
  static std::string name(const RecordKey& key) { return fmt::format("{} {}", history::spec_of(key.first).table, key.second); }
  Cells empty_cells(const RecordKey& key) const {
    Cells cells;
    for (const Field* field : fields_.at(key.first))
      cells.push_back(field->kind == FieldKind::flag ? Value{std::int64_t{0}} : Value{});
    return cells;
  }
  void replay(const HistoryRow& row);
  void compare_with_table(const RecordKey& key, const Cells& cells);
  void take_from_table(const RecordKey& key, const Cells& cells);
  void drop(const RecordKey& key, const std::string& why);
  void drop_what_was_not_made();
  void drop_contents_that_are_gone();
  bool drop_one_round();
  Result<bool> insert_records(Connection& connection);
  Result<void> write_entries(Connection& connection);
  Result<void> write_settled(Connection& connection);
  Result<void> append(Connection& connection, HistoryRow row);

  Wreck wreck_;
  FieldsOf fields_;
  const SalvageOptions& options_;
  Salvaged& report_;
  std::map<RecordKey, Saved> records_;
  // of the history being written
  history::Hash head_{};
  std::int64_t last_entry_ = 0, last_set_ = 0;
};

void Salvage::replay(const HistoryRow& row) {
  const RecordKey key(Entity(row.entity), row.record);
  if (!fields_.contains(key.first)) return;
  Saved& saved = records_[key];
  if (saved.told.empty()) saved.told = empty_cells(key);
  if (row.field != 0) {
    if (const std::size_t at = place(key, row.field); saved.made && at < saved.told.size()) saved.told[at] = row.new_value;
    return;
  }
  saved.made = true;
  for (const auto& [code, value] : made_fields(row))
    if (const std::size_t at = place(key, code); at < saved.told.size()) saved.told[at] = value;
}

void Salvage::compare_with_table(const RecordKey& key, const Cells& cells) {
  const auto found = records_.find(key);
  if (found == records_.end() || !found->second.made) return take_from_table(key, cells);
  const auto& fields = fields_.at(key.first);
  for (std::size_t i = 0; i < fields.size(); ++i) {
    if (cells[i] == found->second.told[i]) continue;
    const std::string where = fmt::format("{}.{}", name(key), fields[i]->column);
    if (wreck_.lost_entries > 0 && is_valid(*fields[i], cells[i])) {
      found->second.wanted[i] = cells[i];
      tell(report_, where, "taken from the table: an entry that may have changed it is lost");
    } else {
      tell(report_, where, "the table was damaged; taken from the history");
    }
  }
}

void Salvage::take_from_table(const RecordKey& key, const Cells& cells) {
  const auto& fields = fields_.at(key.first);
  bool valid = key.second > 0;
  for (std::size_t i = 0; i < fields.size(); ++i) valid = valid && is_valid(*fields[i], cells[i]);
  if (wreck_.lost_entries == 0 || !valid) return tell(report_, name(key), "stands in its table without any entry; left out");
  records_[key] = {false, empty_cells(key), cells};
  tell(report_, name(key), "taken from its table: the entry that made it is lost");
}

void Salvage::drop(const RecordKey& key, const std::string& why) {
  records_.erase(key);
  ++report_.lost_records;
  tell(report_, name(key), why);
}

// Entries tell of it, but not how it was made, and its table does not have it.
void Salvage::drop_what_was_not_made() {
  std::vector<RecordKey> gone;
  for (const auto& [key, saved] : records_)
    if (!saved.made && saved.wanted.empty())
      gone.push_back(key);
    else if (!saved.made && saved.wanted == saved.told)
      gone.push_back(key);
  for (const RecordKey& key : gone) drop(key, "lost: neither the entry that made it nor its row reads");
}

void Salvage::drop_contents_that_are_gone() {
  std::vector<RecordKey> gone;
  for (auto& [key, saved] : records_) {
    const bool attachment = key.first == Entity::attachment;
    if (!attachment && key.first != Entity::summary) continue;
    const Field& field = attachment ? history::fields::attachment::hash : history::fields::summary::file_hash;
    const std::size_t at = place(key, field.code);
    const auto* hash = at < saved.wanted.size() ? std::get_if<std::string>(&saved.wanted[at]) : nullptr;
    if (!hash || wreck_.contents.contains(*hash)) continue;
    if (attachment) {
      gone.push_back(key);
    } else {
      saved.wanted[at] = Value{};
      tell(report_, name(key), "its issued file does not read");
    }
  }
  for (const RecordKey& key : gone) drop(key, "lost: its bytes do not read");
}

// A record that refers to one that is lost: the reference goes, or the record where it can't be without.
bool Salvage::drop_one_round() {
  std::vector<RecordKey> gone;
  for (auto& [key, saved] : records_) {
    const auto& fields = fields_.at(key.first);
    for (std::size_t i = 0; i < fields.size(); ++i) {
      if (fields[i]->kind != FieldKind::reference) continue;
      const auto* to = std::get_if<std::int64_t>(&saved.wanted[i]);
      if (!to || records_.contains({*fields[i]->refers, *to})) continue;
      if (fields[i]->required) {
        gone.push_back(key);
        break;
      }
      saved.wanted[i] = Value{};
      tell(report_, fmt::format("{}.{}", name(key), fields[i]->column), "referred to a record that is lost");
    }
  }
  for (const RecordKey& key : gone) drop(key, "lost with the record that it belongs to");
  return !gone.empty();
}

Result<bool> Salvage::insert_records(Connection& connection) {
  for (const auto& [key, saved] : records_) {
    if (options_.cancellation && options_.cancellation->requested())
      return Error{ErrorCode::cancelled, "", "the salvage was stopped", {}};
    store::Arguments arguments{key.second};
    for (const Value& value : saved.wanted) arguments.push_back(store::as_argument(value));
    const auto inserted =
        connection.run_derived(history::insert_sql(history::spec_of(key.first), fields_.at(key.first)), arguments);
    if (inserted) continue;
    if (inserted.error().code != ErrorCode::inconsistent && inserted.error().code != ErrorCode::already_exists)
      return inserted.error();
    drop(RecordKey(key), fmt::format("lost: the rules of the notebook refuse it ({})", inserted.error().detail));
    while (drop_one_round()) {
    }
    return false;
  }
  return true;
}

Result<void> Salvage::append(Connection& connection, HistoryRow row) {
  row.id = ++last_entry_;
  row.hash = history::hash_of(row, head_);
  head_ = row.hash;
  return history::append_history_row(connection, row);
}

// The entries as they were written; where one is gone in between, numbers and hashes are new from there on.
Result<void> Salvage::write_entries(Connection& connection) {
  std::map<std::int64_t, std::int64_t> sets;
  std::map<RecordKey, Cells> now;
  for (HistoryRow row : wreck_.entries) {
    const RecordKey key(Entity(row.entity), row.record);
    const auto saved = records_.find(key);
    if (saved == records_.end() || !saved->second.made) continue;
    if (row.field != 0 && !now.contains(key)) continue;  // from before it was made: out of order
    if (row.field == 0 && now.contains(key)) continue;
    if (!sets.contains(row.change_set)) sets[row.change_set] = ++last_set_;
    row.change_set = last_set_;
    if (row.takes_back) {
      const auto taken = sets.find(*row.takes_back);
      row.takes_back = taken == sets.end() ? std::nullopt : std::optional(taken->second);
    }
    Cells& cells = now.try_emplace(key, empty_cells(key)).first->second;
    if (row.field == 0) {
      for (const auto& [code, value] : made_fields(row))
        if (const std::size_t at = place(key, code); at < cells.size()) cells[at] = value;
    } else if (const std::size_t at = place(key, row.field); at < cells.size()) {
      if (cells[at] != row.old_value) {
        HistoryRow bridge = row;
        bridge.old_value = cells[at];
        bridge.new_value = row.old_value;
        bridge.gesture = salvage_gesture;
        bridge.who.clear();
        bridge.why = "an entry in between does not read";
        PRILLBOOK_TRY(append(connection, bridge));
      }
      cells[at] = row.new_value;
    }
    PRILLBOOK_TRY(append(connection, row));
    ++report_.entries;
  }
  return {};
}

// One gesture at the end: what the tables know better than the entries that are left.
Result<void> Salvage::write_settled(Connection& connection) {
  HistoryRow row;
  row.change_set = last_set_ + 1;
  row.gesture = salvage_gesture;
  row.when = options_.now;
  row.why = "taken from the tables of a damaged notebook";
  for (const auto& [key, saved] : records_) {
    const auto& fields = fields_.at(key.first);
    row.entity = std::int64_t(key.first);
    row.record = key.second;
    row.old_value = {};
    if (!saved.made) {
      std::vector<history::Setting> settings;
      for (std::size_t i = 0; i < fields.size(); ++i)
        if (saved.wanted[i] != saved.told[i]) settings.push_back({*fields[i], saved.wanted[i]});
      row.field = 0;
      row.new_value = history::made_text(settings);
      PRILLBOOK_TRY(append(connection, row));
      continue;
    }
    for (std::size_t i = 0; i < fields.size(); ++i) {
      if (saved.wanted[i] == saved.told[i]) continue;
      row.field = fields[i]->code;
      row.old_value = saved.told[i];
      row.new_value = saved.wanted[i];
      PRILLBOOK_TRY(append(connection, row));
    }
  }
  return {};
}

Result<bool> Salvage::write(Connection& connection) {
  report_.entries = 0;
  head_ = {};
  last_entry_ = last_set_ = 0;
  PRILLBOOK_TRY(connection.run(sql::begin));
  PRILLBOOK_TRY(connection.run(sql::defer_references));
  PRILLBOOK_ASSIGN(const bool inserted, insert_records(connection));
  if (!inserted) return false;
  for (const auto& [key, saved] : records_) {
    if (key.first != Entity::attachment && key.first != Entity::summary) continue;
    for (const Value& value : saved.wanted)
      if (const auto* hash = std::get_if<std::string>(&value); hash && wreck_.contents.contains(*hash))
        PRILLBOOK_TRY(history::keep_content(connection, wreck_.contents.at(*hash)));
  }
  PRILLBOOK_TRY(write_entries(connection));
  PRILLBOOK_TRY(write_settled(connection));
  PRILLBOOK_TRY(history::rebuild_search_index(connection));
  PRILLBOOK_TRY(connection.run(sql::commit));
  report_.records = std::int64_t(records_.size());
  return true;
}

// A record that the rules refuse is only met when it is written: then all is written once more, without it.
Result<void> write_sound(Salvage& salvage, const std::string& part, int version) {
  constexpr int most_rounds = 200;
  for (int round = 0; round < most_rounds; ++round) {
    store::discard(part);
    PRILLBOOK_ASSIGN(const auto connection, Connection::create(part, "", version));
    PRILLBOOK_ASSIGN(const bool written, salvage.write(*connection));
    if (!written) continue;
    PRILLBOOK_ASSIGN(const CheckReport report, check_notebook(*connection));
    return sound_or_error(report, part);
  }
  return Error{ErrorCode::damaged, "", "no sound notebook comes of what reads", {}};
}

}  // namespace

std::string salvaged_name(const std::string& notebook, const Instant& now) {
  const fs::path path(notebook);
  return (path.parent_path() /
          fmt::format("{}.salvaged-{}{}", path.stem().string(), to_text(copy_time(now)), path.extension().string()))
      .string();
}

Result<Salvaged> salvage(const std::string& path, const std::string& to, const SalvageOptions& options) {
  std::error_code code;
  if (fs::exists(fs::symlink_status(to, code)))
    return Error{ErrorCode::already_exists, "", fmt::format("{}: the file exists already", to), {to}};
  const std::string part = to + ".part", mended = to + ".mended";
  Salvaged report;
  const auto all = [&]() -> Result<void> {
    PRILLBOOK_ASSIGN(const int told, mend_head(path, mended, report));
    // What can't be mended is met when the tables are read.
    if (const int pages = store::mend_schema_pages(mended, told).value_or(0); pages > 0)
      tell(report, "schema", fmt::format("{} of its pages were damaged", pages));
    if (const int rows = store::mend_schema(mended, told).value_or(0); rows > 0)
      tell(report, "schema", fmt::format("{} of its rows were damaged", rows));
    Wreck wreck;
    SchemaFound schema;
    {
      PRILLBOOK_ASSIGN(const auto connection, Connection::open(mended, store::Access::read_only));
      PRILLBOOK_ASSIGN(schema, schema_that_fits(*connection, told));
      PRILLBOOK_ASSIGN(wreck, WreckReader(*connection, options, report).read(schema.fields));
    }
    const bool nothing = wreck.entries.empty() && std::all_of(wreck.tables.begin(), wreck.tables.end(),
                                                              [](const auto& table) { return table.second.empty(); });
    if (nothing && report.told > 0)
      return Error{ErrorCode::not_a_notebook, "", fmt::format("{}: nothing of a notebook reads", path), {path}};
    Salvage made(std::move(wreck), std::move(schema.fields), options, report);
    made.settle();
    PRILLBOOK_TRY(write_sound(made, part, schema.version));
    return store::move_into_place(part, to, false);
  };
  const auto outcome = all();
  store::discard(mended);
  if (outcome) return report;
  store::discard(part);
  return outcome.error();
}

}  // namespace prillbook::upkeep
