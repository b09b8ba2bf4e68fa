// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/history/journal.h"

#include <fmt/format.h>

#include <algorithm>
#include <nlohmann/json.hpp>

#include "core/base/text.h"
#include "core/history/record_sql.h"
#include "core/history/rows.h"
#include "core/history/search_index.h"
#include "core/history/statements.h"
#include "core/history/values.h"

namespace prillbook::history {
namespace {

using store::Argument;
using store::Arguments;
using store::as_argument;

struct MakeStatements {
  std::string next_id, insert;
};

// Put together once for each kind of record: a load makes them by the hundred thousand.
const MakeStatements& make_statements(const EntitySpec& spec) {
  static const std::vector<MakeStatements> all = [] {
    std::vector<MakeStatements> made;
    for (const EntitySpec& entity : catalogue()) made.push_back({next_id_sql(entity), insert_sql(entity)});
    return made;
  }();
  return all[static_cast<std::size_t>(&spec - catalogue().data())];
}

void append_json(std::string& out, const std::string& text) {
  if (!append_plain_json(out, text)) out += nlohmann::json(text).dump(-1, ' ', false, nlohmann::json::error_handler_t::replace);
}

// A UNIQUE or FOREIGN KEY fault said in the words of the record.
Error explained(Error error, const EntitySpec& entity) {
  if (error.code != ErrorCode::inconsistent) return error;
  if (error.detail.find("UNIQUE constraint") != std::string::npos) {
    error.code = ErrorCode::already_exists;
    error.field = entity.table;
    error.detail = fmt::format("another {} has this already ({})", entity.table, error.detail);
  }
  return error;
}

using Ordered = std::vector<const Setting*>;

Ordered by_code(const std::vector<Setting>& settings) {
  Ordered ordered;
  ordered.reserve(settings.size());
  for (const Setting& setting : settings) ordered.push_back(&setting);
  const auto before = [](const Setting* a, const Setting* b) { return a->field.code < b->field.code; };
  if (!std::is_sorted(ordered.begin(), ordered.end(), before)) std::stable_sort(ordered.begin(), ordered.end(), before);
  return ordered;
}

std::string text_of(const Ordered& settings) {
  std::string text = "{";
  for (const Setting* setting : settings) {
    if (store::is_null(setting->value)) continue;
    text.append(text.size() > 1 ? ",\"" : "\"").append(fmt::format_int(setting->field.code).c_str()).append("\":");
    if (const auto* number = std::get_if<std::int64_t>(&setting->value))
      text += fmt::format_int(*number).c_str();
    else
      append_json(text, std::get<std::string>(setting->value));
  }
  return text + "}";
}

}  // namespace

std::string made_text(const std::vector<Setting>& settings) { return text_of(by_code(settings)); }

ChangeSet::ChangeSet(Journal& journal, std::string gesture, std::optional<std::int64_t> takes_back)
    : journal_(journal), takes_back_(takes_back) {
  written_.change_set = journal.last_change_set_ + 1;
  written_.gesture = std::move(gesture);
  written_.who = journal.author_;
  written_.when = journal.clock_.now();
}

store::Connection& ChangeSet::connection() { return journal_.connection_; }

Result<RecordId> ChangeSet::make(Entity entity, const std::vector<Setting>& settings) {
  const EntitySpec& spec = spec_of(entity);
  const MakeStatements& statements = make_statements(spec);
  store::Connection& connection = journal_.connection_;
  RecordId& next = next_ids_[entity];
  if (next == 0)
    PRILLBOOK_TRY(connection.rows_derived(statements.next_id, {}, [&](const store::Row& row) {
      next = row.integer(0);
      return false;
    }));
  const RecordId id = next;
  Arguments arguments{id};
  arguments.reserve(spec.fields.size() + 1);
  const Ordered ordered = by_code(settings);
  auto given = ordered.begin();
  for (const Field* field : spec.fields) {
    while (given != ordered.end() && (*given)->field.code < field->code) ++given;
    static const Value absent;
    const Value& value = given == ordered.end() || (*given)->field.code != field->code ? absent : (*given)->value;
    PRILLBOOK_TRY(check_value(*field, value));
    const bool unset_flag = field->kind == FieldKind::flag && store::is_null(value);
    arguments.push_back(unset_flag ? Argument{std::int64_t{0}} : as_argument(value));
  }
  if (auto inserted = connection.run_derived(statements.insert, arguments); !inserted) return explained(inserted.error(), spec);
  ++next;
  PRILLBOOK_TRY(append(entity, id, 0, {}, text_of(ordered)));
  return id;
}

Result<void> ChangeSet::set(const Field& field, RecordId record, Value value) {
  PRILLBOOK_TRY(check_value(field, value));
  const EntitySpec& spec = spec_of(field.entity);
  store::Connection& connection = journal_.connection_;
  std::optional<Value> old_value;
  PRILLBOOK_TRY(connection.rows_derived(select_field_sql(field), {record}, [&](const store::Row& row) {
    old_value = row.value(0);
    return false;
  }));
  if (!old_value)
    return Error{ErrorCode::not_found, std::string(spec.table), fmt::format("there is no {} {}", spec.table, record), {}};
  if (*old_value == value) return {};
  if (auto updated = connection.run_derived(update_sql(field), {as_argument(value), record}); !updated)
    return explained(updated.error(), spec);
  return append(field.entity, record, field.code, *std::move(old_value), std::move(value));
}

Result<void> ChangeSet::append(Entity entity, RecordId record, std::int64_t field, Value old_value, Value new_value) {
  HistoryRow row;
  row.id = journal_.last_row_ + 1;
  row.change_set = written_.change_set;
  row.takes_back = takes_back_;
  row.gesture = written_.gesture;
  row.entity = static_cast<std::int64_t>(entity);
  row.record = record;
  row.field = field;
  row.old_value = std::move(old_value);
  row.new_value = std::move(new_value);
  row.who = written_.who;
  row.when = written_.when;
  row.why = why_;
  row.hash = hash_of(row, journal_.head_);
  PRILLBOOK_TRY(append_history_row(journal_.connection_, row));
  journal_.last_row_ = row.id;
  journal_.head_ = row.hash;
  written_.changes.push_back({entity, record, field});
  return {};
}

Result<std::unique_ptr<Journal>> Journal::open(store::Connection& connection, Clock& clock) {
  std::unique_ptr<Journal> journal(new Journal(connection, clock));
  PRILLBOOK_TRY(journal->read_end());
  PRILLBOOK_ASSIGN(journal->has_search_, has_search_index(connection));
  return journal;
}

Result<void> Journal::read_end() {
  head_ = {};
  last_row_ = last_change_set_ = 0;
  bool readable = true;
  PRILLBOOK_TRY(connection_.rows(sql::last_row, {}, [&](const store::Row& row) {
    const auto hash = hash_from_bytes(row.blob(2));
    readable = hash.has_value();
    last_row_ = row.integer(0);
    last_change_set_ = row.integer(1);
    head_ = hash.value_or(Hash{});
    return false;
  }));
  if (!readable) return Error{ErrorCode::damaged, "history", "the last row of the history has no hash", {connection_.path()}};
  return {};
}

Result<Written> Journal::write(std::string_view gesture, std::optional<std::int64_t> takes_back,
                               const std::function<Result<void>(ChangeSet&)>& body) {
  if (connection_.access() == store::Access::read_only)
    return Error{ErrorCode::read_only, "", fmt::format("{} is open for reading only", connection_.path()), {connection_.path()}};
  const Hash head = head_;
  const std::int64_t last_row = last_row_, last_change_set = last_change_set_;
  ChangeSet set(*this, std::string(gesture), takes_back);
  auto outcome = connection_.transaction([&]() -> Result<void> {
    PRILLBOOK_TRY(body(set));
    return has_search_ ? update_search_index(connection_, set.written_.changes) : Result<void>{};
  });
  if (!outcome) {
    // A disk may report a fault in the last step of a commit and have done it: then the gesture stands in the file.
    const Hash written = head_;
    const bool readable = read_end().ok();
    if (!readable) {
      head_ = head;
      last_row_ = last_row;
      last_change_set_ = last_change_set;
    }
    if (!readable || set.written_.changes.empty() || head_ != written) return outcome.error();
    if (!connection_.confirm())
      return Error{outcome.error().code, "commit_done", outcome.error().detail, outcome.error().arguments};
  }
  if (!set.written_.changes.empty()) last_change_set_ = set.written_.change_set;
  return std::move(set.written_);
}

Result<void> Journal::record(std::string_view gesture, const std::function<Result<void>(ChangeSet&)>& body) {
  PRILLBOOK_ASSIGN(const Written written, write(gesture, std::nullopt, body));
  if (written.changes.empty()) return {};
  undoable_.push_back(written.change_set);
  redoable_.clear();
  for (const Listener& listener : listeners_) listener(written);
  return {};
}

Result<Written> Journal::revert(std::int64_t change_set, std::string_view gesture) {
  struct Step {
    const Field* field;
    RecordId record;
    Value from, to;
  };
  std::vector<Step> steps;
  PRILLBOOK_TRY(connection_.rows(sql::rows_of_change_set, {change_set}, [&](const store::Row& row) {
    const EntitySpec* entity = find_entity(row.integer(0));
    if (!entity) return true;
    const bool made = row.integer(2) == 0;
    const Field* field = find_field(*entity, made ? struck_code : row.integer(2));
    if (!field) return true;
    if (made)
      steps.push_back({field, row.integer(1), std::int64_t{0}, std::int64_t{1}});
    else
      steps.push_back({field, row.integer(1), row.value(4), row.value(3)});
    return true;
  }));
  PRILLBOOK_ASSIGN(
      Written written, write(gesture, change_set, [&](ChangeSet& set) -> Result<void> {
        for (Step& step : steps) {
          std::optional<Value> now;
          PRILLBOOK_TRY(connection_.rows_derived(select_field_sql(*step.field), {step.record}, [&](const store::Row& row) {
            now = row.value(0);
            return false;
          }));
          if (!now || *now != step.from)
            return Error{ErrorCode::changed_since, path_of(*step.field), "a later entry stands in the way", {}};
          PRILLBOOK_TRY(set.set(*step.field, step.record, std::move(step.to)));
        }
        return {};
      }));
  for (const Listener& listener : listeners_) listener(written);
  return written;
}

Result<Written> Journal::undo() {
  if (undoable_.empty()) return Error{ErrorCode::not_found, "", "there is nothing to take back", {}};
  PRILLBOOK_ASSIGN(Written written, revert(undoable_.back(), "take back"));
  undoable_.pop_back();
  redoable_.push_back(written.change_set);
  return written;
}

Result<Written> Journal::redo() {
  if (redoable_.empty()) return Error{ErrorCode::not_found, "", "there is nothing to put back", {}};
  PRILLBOOK_ASSIGN(Written written, revert(redoable_.back(), "put back"));
  redoable_.pop_back();
  undoable_.push_back(written.change_set);
  return written;
}

Result<Hash> head_of(store::Connection& connection) {
  Hash head{};
  PRILLBOOK_TRY(connection.rows(sql::last_row, {}, [&](const store::Row& row) {
    head = hash_from_bytes(row.blob(2)).value_or(Hash{});
    return false;
  }));
  return head;
}

}  // namespace prillbook::history
