// SPDX-License-Identifier: GPL-3.0-or-later
// A record as the tables hold it, read through the catalogue.
#pragma once

#include <memory>
#include <optional>
#include <string>
#include <vector>

#include "core/base/id.h"
#include "core/history/catalogue.h"
#include "core/history/cells.h"
#include "core/store/connection.h"

namespace prillbook::history {

class Record {
 public:
  Record(const EntitySpec& entity, const store::Row& row);
  // One of several whose cells stand together: from `first` on, by the order of the catalogue.
  Record(const EntitySpec& entity, RecordId id, std::shared_ptr<const Cells> cells, std::size_t first);

  RecordId id() const { return id_; }
  Entity entity() const { return entity_->entity; }
  bool struck() const;

  // `field` must be of this record's entity.
  store::Value value(const Field& field) const;
  std::string text(const Field& field) const;  // empty where absent
  std::optional<std::string> optional_text(const Field& field) const;
  std::optional<std::string_view> text_view(const Field& field) const;  // as long as a copy of the record lives
  std::int64_t whole(const Field& field) const;                         // 0 where absent
  std::optional<std::int64_t> optional_whole(const Field& field) const;
  template <class IdType>
  IdType reference(const Field& field) const {
    return IdType{whole(field)};
  }

 private:
  std::optional<std::size_t> cell(const Field& field) const;  // nullopt for one that the entity has not

  const EntitySpec* entity_;
  RecordId id_;
  std::shared_ptr<const Cells> cells_;  // shared by the copies
  std::size_t first_ = 0;
};

class ReadAhead;

// Where records are read from: a notebook, and what was read of it ahead. Made of a connection without a word; whoever reads
// records takes it by value.
class Source {
 public:
  Source(store::Connection& connection) : connection_(&connection) {}  // NOLINT(google-explicit-constructor)
  Source(store::Connection& connection, ReadAhead& ahead) : connection_(&connection), ahead_(&ahead) {}

  store::Connection& connection() const { return *connection_; }
  ReadAhead* ahead() const { return ahead_; }  // nullptr: nothing was read ahead

 private:
  store::Connection* connection_;
  ReadAhead* ahead_ = nullptr;
};

// Errors: not_found, and the faults of the file.
Result<Record> load_record(Source source, Entity entity, RecordId id);
// Not struck out, by id.
Result<std::vector<Record>> load_all(store::Connection& connection, Entity entity);
// Records that refer to `id` through `reference`, not struck out, by id.
Result<std::vector<Record>> load_referring(Source source, const Field& reference, RecordId id);

}  // namespace prillbook::history
