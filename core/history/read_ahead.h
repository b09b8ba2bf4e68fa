// SPDX-License-Identifier: GPL-3.0-or-later
// What the readers of many samples would ask for one by one, read by one statement for each kind of record.
#pragma once

#include <optional>
#include <span>
#include <utility>
#include <vector>

#include "core/history/record.h"
#include "core/history/record_sql.h"

namespace prillbook::history {

// Speaks of the moment at which it was filled: it is made, used and dropped inside one Connection::snapshot.
class ReadAhead {
 public:
  explicit ReadAhead(store::Connection& connection) : connection_(connection) {}
  ReadAhead(const ReadAhead&) = delete;
  ReadAhead& operator=(const ReadAhead&) = delete;

  // These records, struck out or not. Errors: the faults of the file.
  Result<void> read(Entity entity, std::span<const RecordId> ids);
  // Those that refer to one of `owners` through `reference`, not struck out; gives their ids. Errors: the faults of the
  // file.
  Result<std::vector<RecordId>> read(const Field& reference, std::span<const RecordId> owners);

  // nullptr where it was not read.
  const Record* find(Entity entity, RecordId id) const;
  // Those that refer to `owner`, by id; nothing where `owner` was not among the owners.
  std::optional<std::span<const Record>> find(const Field& reference, RecordId owner) const;

 private:
  // What one statement gave: by key, then by id.
  struct Found {
    std::vector<RecordId> asked;  // sorted
    std::vector<Record> records;
    std::vector<RecordId> keys;  // of the records, one for each
  };
  Result<Found> ask(const EntitySpec& spec, const ReadingStatements::By& statements, std::span<const RecordId> ids,
                    const Field* key);

  store::Connection& connection_;
  std::vector<std::pair<Entity, Found>> records_;          // the key is the id
  std::vector<std::pair<const Field*, Found>> referring_;  // the key is the owner
};

}  // namespace prillbook::history
