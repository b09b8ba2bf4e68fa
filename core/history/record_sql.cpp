// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/history/record_sql.h"

#include <fmt/format.h>

namespace prillbook::history {
namespace {

std::string columns(Fields fields) {
  std::string list = "id";
  for (const Field* field : fields) list.append(", ").append(field->column);
  return list;
}

}  // namespace

std::string insert_sql(const EntitySpec& entity) { return insert_sql(entity, entity.fields); }

std::string insert_sql(const EntitySpec& entity, Fields fields) {
  std::string places = "?1";
  for (std::size_t i = 0; i < fields.size(); ++i) places += fmt::format(", ?{}", i + 2);
  return fmt::format("INSERT INTO {} ({}) VALUES ({})", entity.table, columns(fields), places);
}

std::string update_sql(const Field& field) {
  return fmt::format("UPDATE {} SET {} = ?1 WHERE id = ?2", spec_of(field.entity).table, field.column);
}

std::string select_field_sql(const Field& field) {
  return fmt::format("SELECT {} FROM {} WHERE id = ?1", field.column, spec_of(field.entity).table);
}

std::string select_all_sql(const EntitySpec& entity) { return select_all_sql(entity, entity.fields); }

std::string select_all_sql(const EntitySpec& entity, Fields fields) {
  return fmt::format("SELECT {} FROM {} ORDER BY id", columns(fields), entity.table);
}

std::string select_from_sql(const EntitySpec& entity, Fields fields) {
  return fmt::format("SELECT {} FROM {} WHERE id >= ?1 ORDER BY id", columns(fields), entity.table);
}

std::string select_one_sql(const EntitySpec& entity) {
  return fmt::format("SELECT {} FROM {} WHERE id = ?1", columns(entity.fields), entity.table);
}

std::string select_many_sql(const EntitySpec& entity) {
  return fmt::format("SELECT {} FROM {} WHERE id IN (SELECT value FROM json_each(?1)) ORDER BY id", columns(entity.fields),
                     entity.table);
}

std::string select_stretch_sql(const EntitySpec& entity) {
  return fmt::format("SELECT {} FROM {} WHERE id BETWEEN ?1 AND ?2 ORDER BY id", columns(entity.fields), entity.table);
}

std::string select_standing_sql(const EntitySpec& entity) {
  return fmt::format("SELECT {} FROM {} WHERE struck = 0 ORDER BY id", columns(entity.fields), entity.table);
}

std::string select_referring_sql(const Field& reference) {
  const EntitySpec& entity = spec_of(reference.entity);
  return fmt::format("SELECT {} FROM {} WHERE {} = ?1 AND struck = 0 ORDER BY id", columns(entity.fields), entity.table,
                     reference.column);
}

std::string select_referring_to_many_sql(const Field& reference) {
  const EntitySpec& entity = spec_of(reference.entity);
  return fmt::format("SELECT {0} FROM {1} WHERE {2} IN (SELECT value FROM json_each(?1)) AND struck = 0 ORDER BY {2}",
                     columns(entity.fields), entity.table, reference.column);
}

std::string select_referring_to_stretch_sql(const Field& reference) {
  const EntitySpec& entity = spec_of(reference.entity);
  return fmt::format("SELECT {0} FROM {1} WHERE {2} BETWEEN ?1 AND ?2 AND struck = 0 ORDER BY {2}", columns(entity.fields),
                     entity.table, reference.column);
}

std::string referring_ids_sql(const Field& reference) {
  return fmt::format("SELECT id FROM {} WHERE {} = ?1 ORDER BY id", spec_of(reference.entity).table, reference.column);
}

std::string next_id_sql(const EntitySpec& entity) { return fmt::format("SELECT coalesce(max(id), 0) + 1 FROM {}", entity.table); }

const ReadingStatements& reading_statements(const EntitySpec& entity) {
  static const auto all = [] {
    std::map<const EntitySpec*, ReadingStatements> made;
    for (const EntitySpec& spec : catalogue()) {
      ReadingStatements& its = made[&spec];
      its.by_id = {select_one_sql(spec), select_many_sql(spec), select_stretch_sql(spec)};
      its.standing = select_standing_sql(spec);
      for (const Field* field : spec.fields)
        if (field->refers)
          its.referring[field->code] = {select_referring_sql(*field), select_referring_to_many_sql(*field),
                                        select_referring_to_stretch_sql(*field)};
    }
    return made;
  }();
  return all.at(&entity);
}

}  // namespace prillbook::history
