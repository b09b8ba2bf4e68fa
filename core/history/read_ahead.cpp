// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/history/read_ahead.h"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include "core/history/record_sql.h"

namespace prillbook::history {
namespace {

std::string as_json(std::span<const RecordId> ids) { return fmt::format("[{}]", fmt::join(ids, ",")); }

}  // namespace

Result<void> ReadAhead::read(Entity entity, std::span<const RecordId> ids) {
  ById& held = records_[entity];
  if (ids.empty()) return {};
  const EntitySpec& spec = spec_of(entity);
  const std::string wanted = as_json(ids);
  return connection_.rows_derived(select_many_sql(spec), {std::string_view(wanted)}, [&](const store::Row& row) {
    held.try_emplace(row.integer(0), spec, row);
    return true;
  });
}

Result<std::vector<RecordId>> ReadAhead::read(const Field& reference, std::span<const RecordId> owners) {
  ByOwner& held = referring_[&reference];
  std::vector<RecordId> found;
  if (owners.empty()) return found;
  for (const RecordId owner : owners) held[owner].clear();
  const EntitySpec& spec = spec_of(reference.entity);
  const std::string wanted = as_json(owners);
  PRILLBOOK_TRY(connection_.rows_derived(select_referring_to_many_sql(reference), {std::string_view(wanted)}, [&](const store::Row& row) {
    Record record(spec, row);
    found.push_back(record.id());
    held[record.whole(reference)].push_back(std::move(record));
    return true;
  }));
  return found;
}

const Record* ReadAhead::find(Entity entity, RecordId id) const {
  const auto held = records_.find(entity);
  if (held == records_.end()) return nullptr;
  const auto record = held->second.find(id);
  return record == held->second.end() ? nullptr : &record->second;
}

const std::vector<Record>* ReadAhead::find(const Field& reference, RecordId owner) const {
  const auto held = referring_.find(&reference);
  if (held == referring_.end()) return nullptr;
  const auto records = held->second.find(owner);
  return records == held->second.end() ? nullptr : &records->second;
}

}  // namespace prillbook::history
