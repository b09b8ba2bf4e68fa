// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/upkeep/salvage_schema.h"

#include <algorithm>

#include "core/history/record_sql.h"
#include "core/history/rows.h"

namespace prillbook::upkeep {
namespace {

using history::EntitySpec;
using history::Field;
using store::Connection;

Result<FieldsOf> fields_of(int version) {
  PRILLBOOK_ASSIGN(const auto model, Connection::in_memory(version));
  FieldsOf fields;
  for (const EntitySpec& entity : history::catalogue()) {
    PRILLBOOK_ASSIGN(auto held, history::held_fields(*model, entity));
    std::sort(held.begin(), held.end(), [](const Field* a, const Field* b) { return a->code < b->code; });
    if (!held.empty()) fields[entity.entity] = std::move(held);
  }
  return fields;
}

// How many tables of this version the file has, by their columns.
std::int64_t tables_that_fit(Connection& wreck, const FieldsOf& fields) {
  std::int64_t fit = 0;
  for (const auto& [entity, held] : fields) {
    const std::string none = history::select_all_sql(history::spec_of(entity), held) + " LIMIT 0";
    fit += wreck.rows_derived(none, {}, [](const store::Row&) { return true; }).ok();
  }
  return fit;
}

}  // namespace

Result<SchemaFound> schema_that_fits(Connection& wreck, int told) {
  SchemaFound best{told, {}};
  PRILLBOOK_ASSIGN(best.fields, fields_of(told));
  std::int64_t most = tables_that_fit(wreck, best.fields);
  if (told == Connection::newest_version() && most == std::int64_t(best.fields.size())) return best;
  for (int version = Connection::newest_version(); version >= 1; --version) {
    PRILLBOOK_ASSIGN(FieldsOf other, fields_of(version));
    const std::int64_t fit = tables_that_fit(wreck, other);
    if (fit <= most) continue;
    most = fit;
    best = {version, std::move(other)};
  }
  return best;
}

}  // namespace prillbook::upkeep
