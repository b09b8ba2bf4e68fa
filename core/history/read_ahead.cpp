// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/history/read_ahead.h"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>

#include "core/history/record_sql.h"

namespace prillbook::history {
namespace {

constexpr std::size_t few = 4;  // up to so many one by one: taking a list apart costs SQLite more than it saves

std::string as_json(std::span<const RecordId> ids) { return fmt::format("[{}]", fmt::join(ids, ",")); }

Result<void> rows_of(store::Connection& connection, const ReadingStatements::Pair& statements, std::span<const RecordId> ids,
                     const store::RowReader& reader) {
  if (ids.size() > few) {
    const std::string list = as_json(ids);
    return connection.rows_derived(statements.many, {std::string_view(list)}, reader);
  }
  for (const RecordId id : ids) PRILLBOOK_TRY(connection.rows_derived(statements.one, {id}, reader));
  return {};
}

}  // namespace

Result<void> ReadAhead::read(Entity entity, std::span<const RecordId> ids) {
  auto& held = records_[entity];
  const EntitySpec& spec = spec_of(entity);
  return rows_of(connection_, reading_statements(spec).by_id, ids, [&](const store::Row& row) {
    held.try_emplace(row.integer(0), spec, row);
    return true;
  });
}

Result<std::vector<RecordId>> ReadAhead::read(const Field& reference, std::span<const RecordId> owners) {
  const EntitySpec& spec = spec_of(reference.entity);
  Referring read{&reference, {owners.begin(), owners.end()}, {}, {}};
  std::sort(read.asked.begin(), read.asked.end());
  // One list for the values of all: a small one for each record would cost more than reading it.
  auto values = std::make_shared<Record::Values>();
  std::vector<RecordId> found;
  PRILLBOOK_TRY(
      rows_of(connection_, reading_statements(spec).referring.at(reference.code), read.asked, [&](const store::Row& row) {
        found.push_back(row.integer(0));
        for (int column = 1, last = row.columns(); column < last; ++column) values->push_back(row.value(column));
        return true;
      }));
  for (std::size_t i = 0; i < found.size(); ++i) {
    read.records.emplace_back(spec, found[i], values, i * spec.fields.size());
    read.owners.push_back(read.records.back().whole(reference));
  }
  referring_.push_back(std::move(read));
  return found;
}

const Record* ReadAhead::find(Entity entity, RecordId id) const {
  const auto held = records_.find(entity);
  if (held == records_.end()) return nullptr;
  const auto record = held->second.find(id);
  return record == held->second.end() ? nullptr : &record->second;
}

std::optional<std::span<const Record>> ReadAhead::find(const Field& reference, RecordId owner) const {
  const auto held =
      std::find_if(referring_.begin(), referring_.end(), [&](const Referring& one) { return one.reference == &reference; });
  if (held == referring_.end() || !std::binary_search(held->asked.begin(), held->asked.end(), owner)) return std::nullopt;
  const auto [first, last] = std::equal_range(held->owners.begin(), held->owners.end(), owner);
  return std::span(held->records).subspan(std::size_t(first - held->owners.begin()), std::size_t(last - first));
}

}  // namespace prillbook::history
