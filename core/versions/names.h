// SPDX-License-Identifier: GPL-3.0-or-later
// Any record, field and cell of the catalogue in the words that people know it by.
#pragma once

#include <map>
#include <string>
#include <utility>

#include "core/base/id.h"
#include "core/base/result.h"
#include "core/history/catalogue.h"
#include "core/store/connection.h"
#include "core/store/value.h"

namespace prillbook::versions {

// "pan test", "mass received": the table and the column without their underlines.
std::string kind_name(const history::EntitySpec& entity);
std::string field_name(const history::Field& field);

// The number or the name that stands on the record, else that of what it belongs to: "26-0001" of a sample, "26-0001/2"
// of a portion and of its bead. Empty where nothing of the kind is there.
std::string record_name(store::Connection& connection, history::Entity entity, RecordId record);

// A cell as it was typed: "812,5 g", "yes", the name of the record referred to. Empty where nothing stands there.
std::string cell_text(store::Connection& connection, const history::Field& field, const store::Value& value);

// The same for many records: each is looked up once. For as long as nothing is written.
class Names {
 public:
  explicit Names(store::Connection& connection) : connection_(connection) {}  // which outlives it
  const std::string& of(history::Entity entity, RecordId record) { return within(entity, record, 0); }
  std::string cell(const history::Field& field, const store::Value& value);

 private:
  const std::string& within(history::Entity entity, RecordId record, int depth);
  std::string look_up(history::Entity entity, RecordId record, int depth);

  store::Connection& connection_;
  std::map<std::pair<history::Entity, RecordId>, std::string> known_;
};

}  // namespace prillbook::versions
