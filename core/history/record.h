// SPDX-License-Identifier: GPL-3.0-or-later
// A record as the tables hold it, read through the catalogue.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "core/base/id.h"
#include "core/history/catalogue.h"
#include "core/store/connection.h"

namespace prillbook::history {

class Record {
 public:
  Record(const EntitySpec& entity, const store::Row& row);

  RecordId id() const { return id_; }
  Entity entity() const { return entity_->entity; }
  bool struck() const;

  // `field` must be of this record's entity.
  const store::Value& value(const Field& field) const;
  std::string text(const Field& field) const;  // empty where absent
  std::optional<std::string> optional_text(const Field& field) const;
  std::int64_t whole(const Field& field) const;  // 0 where absent
  std::optional<std::int64_t> optional_whole(const Field& field) const;
  template <class IdType>
  IdType reference(const Field& field) const {
    return IdType{whole(field)};
  }

 private:
  const EntitySpec* entity_;
  RecordId id_;
  std::vector<store::Value> values_;  // by the order of the catalogue
};

// Errors: not_found, and the faults of the file.
Result<Record> load_record(store::Connection& connection, Entity entity, RecordId id);
// Not struck out, by id.
Result<std::vector<Record>> load_all(store::Connection& connection, Entity entity);
// Records that refer to `id` through `reference`, not struck out, by id.
Result<std::vector<Record>> load_referring(store::Connection& connection, const Field& reference, RecordId id);

}  // namespace prillbook::history
