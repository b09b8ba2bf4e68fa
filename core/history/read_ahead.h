// SPDX-License-Identifier: GPL-3.0-or-later
// What the readers of many samples would ask for one by one, read by one statement for each kind of record.
#pragma once

#include <map>
#include <optional>
#include <span>
#include <unordered_map>
#include <vector>

#include "core/history/record.h"

namespace prillbook::history {

// Speaks of the moment at which it was filled: it is made, used and dropped inside one Connection::snapshot.
class ReadAhead {
 public:
  explicit ReadAhead(store::Connection& connection) : connection_(connection) {}
  ReadAhead(const ReadAhead&) = delete;
  ReadAhead& operator=(const ReadAhead&) = delete;

  // These records, struck out or not. Errors: the faults of the file.
  Result<void> read(Entity entity, std::span<const RecordId> ids);
  // Those that refer to one of `owners` through `reference`, not struck out; gives their ids. Each reference is asked for once.
  // Errors: the faults of the file.
  Result<std::vector<RecordId>> read(const Field& reference, std::span<const RecordId> owners);

  // nullptr where it was not read.
  const Record* find(Entity entity, RecordId id) const;
  // Those that refer to `owner`, by id; nothing where `owner` was not among the owners.
  std::optional<std::span<const Record>> find(const Field& reference, RecordId owner) const;

 private:
  struct Referring {
    const Field* reference = nullptr;
    std::vector<RecordId> asked;   // owners, sorted
    std::vector<Record> records;   // by owner, then by id
    std::vector<RecordId> owners;  // of the records, one for each
  };

  store::Connection& connection_;
  std::map<Entity, std::unordered_map<RecordId, Record>> records_;
  std::vector<Referring> referring_;
};

}  // namespace prillbook::history
