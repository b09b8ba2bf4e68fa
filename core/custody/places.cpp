// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/custody/places.h"

#include <fmt/format.h>

#include "core/custody/statements.h"
#include "core/history/fields.h"
#include "core/history/record.h"
#include "core/readings/entry.h"

namespace prillbook::custody {

Result<PlaceId> add_place(history::ChangeSet& set, const std::string& name) {
  PRILLBOOK_ASSIGN(const RecordId id,
                   set.make(history::Entity::place, {{history::fields::place::name, readings::cell_of(std::optional(name))}}));
  return PlaceId{id};
}

Result<PlaceId> add_place(history::Journal& journal, const std::string& name) {
  return journal.record_for<PlaceId>("add place", [&](history::ChangeSet& set) { return add_place(set, name); });
}

Result<std::vector<Place>> places(store::Connection& connection) {
  PRILLBOOK_ASSIGN(const auto records, history::load_all(connection, history::Entity::place));
  std::vector<Place> list;
  for (const history::Record& record : records) list.push_back({PlaceId{record.id()}, record.text(history::fields::place::name)});
  return list;
}

Result<PlaceId> place_by_name(store::Connection& connection, std::string_view name) {
  PRILLBOOK_ASSIGN(const std::int64_t id, connection.integer(sql::place_by_name, {name}));
  if (id == 0) return Error{ErrorCode::not_found, "place", fmt::format("there is no place {}", name), {std::string(name)}};
  return PlaceId{id};
}

}  // namespace prillbook::custody
