// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/history/read_ahead.h"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>

namespace prillbook::history {
namespace {

constexpr std::size_t block = 64;  // records whose values stand in one list: one for each would cost more than reading it
constexpr std::size_t few = 4;     // up to so many one by one: taking a list apart costs SQLite more than it saves

std::string as_json(std::span<const RecordId> ids) { return fmt::format("[{}]", fmt::join(ids, ",")); }

// Records that came in together have numbers close together: to pass over others in between costs less than a list.
bool close_together(std::span<const RecordId> sorted) {
  return !sorted.empty() && std::uint64_t(sorted.back()) - std::uint64_t(sorted.front()) < 2 * sorted.size();
}

Result<void> rows_of(store::Connection& connection, const ReadingStatements::By& statements, std::span<const RecordId> ids,
                     const store::RowReader& reader) {
  if (close_together(ids)) return connection.rows_derived(statements.stretch, {ids.front(), ids.back()}, reader);
  if (ids.size() > few) {
    const std::string list = as_json(ids);
    return connection.rows_derived(statements.many, {std::string_view(list)}, reader);
  }
  for (const RecordId id : ids) PRILLBOOK_TRY(connection.rows_derived(statements.one, {id}, reader));
  return {};
}

}  // namespace

Result<ReadAhead::Found> ReadAhead::ask(const EntitySpec& spec, const ReadingStatements::By& statements,
                                        std::span<const RecordId> ids, const Field* key) {
  Found found{{ids.begin(), ids.end()}, {}, {}};
  std::sort(found.asked.begin(), found.asked.end());
  const std::size_t width = spec.fields.size();
  const auto column = std::find(spec.fields.begin(), spec.fields.end(), key);
  const int key_column = key ? int(column - spec.fields.begin()) + 1 : 0;
  std::shared_ptr<Cells> cells;
  PRILLBOOK_TRY(rows_of(connection_, statements, found.asked, [&](const store::Row& row) {
    const RecordId owner = row.integer(key_column);
    if (!std::binary_search(found.asked.begin(), found.asked.end(), owner)) return true;
    if (!cells || cells->size() + width > cells->capacity()) {
      cells = std::make_shared<Cells>();
      cells->reserve(width * block);
    }
    const std::size_t first = cells->size();
    cells->add(row);
    found.records.emplace_back(spec, row.integer(0), cells, first);
    found.keys.push_back(owner);
    return true;
  }));
  // An index gives them by key alone; to have SQLite sort wide rows by id as well costs more than to sort these.
  const auto by_id = [](const Record& a, const Record& b) { return a.id() < b.id(); };
  for (auto first = found.keys.begin(); first != found.keys.end();) {
    const auto last = std::find_if(first, found.keys.end(), [&](RecordId other) { return other != *first; });
    std::sort(found.records.begin() + (first - found.keys.begin()), found.records.begin() + (last - found.keys.begin()), by_id);
    first = last;
  }
  return found;
}

Result<void> ReadAhead::read(Entity entity, std::span<const RecordId> ids) {
  const EntitySpec& spec = spec_of(entity);
  PRILLBOOK_ASSIGN(Found found, ask(spec, reading_statements(spec).by_id, ids, nullptr));
  records_.emplace_back(entity, std::move(found));
  return {};
}

Result<std::vector<RecordId>> ReadAhead::read(const Field& reference, std::span<const RecordId> owners) {
  const EntitySpec& spec = spec_of(reference.entity);
  PRILLBOOK_ASSIGN(Found found, ask(spec, reading_statements(spec).referring.at(reference.code), owners, &reference));
  std::vector<RecordId> ids;
  ids.reserve(found.records.size());
  for (const Record& record : found.records) ids.push_back(record.id());
  referring_.emplace_back(&reference, std::move(found));
  return ids;
}

const Record* ReadAhead::find(Entity entity, RecordId id) const {
  for (const auto& [of, found] : records_) {
    if (of != entity) continue;
    const auto at = std::lower_bound(found.keys.begin(), found.keys.end(), id);
    if (at != found.keys.end() && *at == id) return &found.records[std::size_t(at - found.keys.begin())];
  }
  return nullptr;
}

std::optional<std::span<const Record>> ReadAhead::find(const Field& reference, RecordId owner) const {
  for (const auto& [through, found] : referring_) {
    if (through != &reference || !std::binary_search(found.asked.begin(), found.asked.end(), owner)) continue;
    const auto [first, last] = std::equal_range(found.keys.begin(), found.keys.end(), owner);
    return std::span(found.records).subspan(std::size_t(first - found.keys.begin()), std::size_t(last - first));
  }
  return std::nullopt;
}

}  // namespace prillbook::history
