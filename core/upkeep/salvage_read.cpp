// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/upkeep/salvage_read.h"

#include <fmt/format.h>

#include <algorithm>
#include <functional>
#include <optional>

#include "core/base/text.h"
#include "core/history/contents.h"
#include "core/history/record_sql.h"
#include "core/history/rows.h"
#include "core/history/values.h"
#include "core/upkeep/statements.h"

namespace prillbook::upkeep {
namespace {

using history::EntitySpec;
using history::Field;
using history::Hash;
using history::HistoryRow;

// A page that does not read holds a few dozen rows at most; after so many ids in vain nothing more is expected.
constexpr std::int64_t most_in_vain = 2000;

// Reads rows by ascending id, past those that do not read. `from` runs the query for ids from its argument on and calls
// back with each id; it may fail in the middle.
using From = std::function<Result<void>(std::int64_t first, const std::function<void(std::int64_t)>& seen)>;
// False where the reading ended in what does not read.
bool read_past_damage(const From& from, const std::function<bool()>& stopped) {
  std::int64_t next = 1, in_vain = 0;
  while (in_vain < most_in_vain && !stopped()) {
    const std::int64_t begun = next;
    const auto outcome = from(next, [&](std::int64_t id) { next = id + 1; });
    if (outcome) return true;
    in_vain = next > begun ? 0 : in_vain + 1;
    ++next;
  }
  return false;
}

bool is_known(const HistoryRow& row) {
  const EntitySpec* entity = history::find_entity(row.entity);
  if (!entity) return false;
  if (row.field != 0) return history::find_field(*entity, row.field) != nullptr;
  const auto* text = std::get_if<std::string>(&row.new_value);
  return text && history::read_made_text(*text).has_value();
}

bool is_text(const HistoryRow& row) {
  const auto good = [](const store::Value& value) {
    const auto* text = std::get_if<std::string>(&value);
    return !text || is_utf8(*text);
  };
  return is_utf8(row.gesture) && is_utf8(row.who) && is_utf8(row.why.value_or("")) && good(row.old_value) && good(row.new_value);
}

using Made = std::vector<std::pair<std::int64_t, store::Value>>;

// A text that may be the hash of a content: 64 digits.
void want_hash(const store::Value& value, std::set<std::string>& wanted) {
  if (const auto* text = std::get_if<std::string>(&value); text && text->size() == 64) wanted.insert(*text);
}

}  // namespace

void tell(Salvaged& report, std::string where, std::string what) {
  ++report.told;
  if (report.left.size() < Salvaged::most_told) report.left.push_back({std::move(where), std::move(what)});
}

Result<Wreck> WreckReader::read(const std::map<history::Entity, std::vector<const Field*>>& fields) {
  Wreck wreck;
  PRILLBOOK_ASSIGN(auto rows, read_history());
  believe(std::move(rows), wreck);
  for (const auto& [entity, held] : fields) {
    PRILLBOOK_ASSIGN(wreck.tables[entity], read_table(history::spec_of(entity), held));
  }
  PRILLBOOK_TRY(read_contents(wreck));
  if (stopped()) return Error{ErrorCode::cancelled, "", "the salvage was stopped", {}};
  return wreck;
}

Result<std::vector<HistoryRow>> WreckReader::read_history() {
  std::vector<HistoryRow> rows;
  damaged_end_ = !read_past_damage(
      [&](std::int64_t first, const std::function<void(std::int64_t)>& seen) {
        return wreck_.rows(sql::history_from, {first}, [&](const store::Row& line) {
          const HistoryRow row = history::read_history_row(line);
          if (row.id < first || (!rows.empty() && row.id <= rows.back().id)) return false;
          rows.push_back(row);
          seen(row.id);
          return !stopped();
        });
      },
      [&] { return stopped(); });
  return rows;
}

// An entry is believed where its hash fits it and the one before; where its own hash is what was damaged, the next entry
// proves it. After an entry that is gone the hash it had proves nothing, and the first one is believed as it reads.
void WreckReader::believe(std::vector<HistoryRow> rows, Wreck& wreck) {
  std::optional<Hash> before = Hash{};
  std::int64_t expected = 1;
  for (std::size_t i = 0; i < rows.size(); ++i) {
    HistoryRow& row = rows[i];
    if (row.id != expected) {
      wreck.lost_entries += row.id - expected;
      tell(report_, fmt::format("history {}", expected), fmt::format("{} entries do not read", row.id - expected));
      before.reset();
    }
    expected = row.id + 1;
    const bool sound = is_known(row) && is_text(row);
    const Hash computed = before ? history::hash_of(row, *before) : row.hash;
    const bool next_proves =
        i + 1 < rows.size() && rows[i + 1].id == row.id + 1 && history::hash_of(rows[i + 1], computed) == rows[i + 1].hash;
    if (sound && (computed == row.hash || next_proves)) {
      if (!before) tell(report_, fmt::format("history {}", row.id), "reads, but nothing before it proves it");
      before = computed;
      wreck.entries.push_back(std::move(row));
      continue;
    }
    ++wreck.lost_entries;
    tell(report_, fmt::format("history {}", row.id), "does not fit its hash and is not believed");
    before = row.hash;
  }
  // The end of a chain proves nothing about what came after it: the index of the records does.
  const std::int64_t indexed = wreck_.integer(sql::entries_after_by_index, {expected}).value_or(0);
  const std::int64_t after = std::max<std::int64_t>(indexed, damaged_end_ ? 1 : 0);
  if (after > 0) {
    wreck.lost_entries += after;
    tell(report_, fmt::format("history {}", expected), fmt::format("{} entries at the end do not read", after));
  }
  report_.lost_entries = wreck.lost_entries;
}

Result<Rows> WreckReader::read_table(const EntitySpec& entity, const std::vector<const Field*>& fields) {
  Rows rows;
  const std::string text = history::select_from_sql(entity, fields);
  (void)read_past_damage(
      [&](std::int64_t first, const std::function<void(std::int64_t)>& seen) {
        return wreck_.rows_derived(text, {first}, [&](const store::Row& row) {
          const RecordId id = row.integer(0);
          if (id < first) return false;
          Cells cells;
          for (std::size_t i = 0; i < fields.size(); ++i) cells.push_back(row.value(int(i) + 1));
          rows[id] = std::move(cells);
          seen(id);
          return !stopped();
        });
      },
      [&] { return stopped(); });
  return rows;
}

Result<void> WreckReader::read_contents(Wreck& wreck) {
  std::set<std::string> wanted;
  for (const history::Entity entity : {history::Entity::attachment, history::Entity::summary})
    for (const auto& [id, cells] : wreck.tables[entity])
      for (const store::Value& cell : cells) want_hash(cell, wanted);
  for (const HistoryRow& row : wreck.entries) {
    if (row.entity != std::int64_t(history::Entity::attachment) && row.entity != std::int64_t(history::Entity::summary)) continue;
    want_hash(row.new_value, wanted);
    const auto* text = std::get_if<std::string>(&row.new_value);
    for (const auto& [code, value] : (text ? history::read_made_text(*text) : std::nullopt).value_or(Made{}))
      want_hash(value, wanted);
  }
  for (const std::string& hash : wanted) {
    if (stopped()) break;
    (void)wreck_.rows(sql::content_of, {std::string_view(hash)}, [&](const store::Row& row) {
      if (std::string bytes = row.blob(0); history::hex_digest(bytes) == hash) wreck.contents[hash] = std::move(bytes);
      return false;
    });
  }
  return {};
}

}  // namespace prillbook::upkeep
