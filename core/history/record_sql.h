// SPDX-License-Identifier: GPL-3.0-or-later
// Statements derived from the catalogue: the only SQL that is not in a statements.sql file.
#pragma once

#include <map>
#include <span>
#include <string>

#include "core/history/catalogue.h"

namespace prillbook::history {

using Fields = std::span<const Field* const>;

std::string insert_sql(const EntitySpec& entity);                      // ?1 id, then every field by code
std::string insert_sql(const EntitySpec& entity, Fields fields);       // ?1 id, then these
std::string update_sql(const Field& field);                            // ?1 value, ?2 id
std::string select_field_sql(const Field& field);                      // ?1 id
std::string select_all_sql(const EntitySpec& entity);                  // id, then every field by code; by id
std::string select_all_sql(const EntitySpec& entity, Fields fields);   // id, then these; by id
std::string select_from_sql(const EntitySpec& entity, Fields fields);  // the same from id ?1 on
std::string select_one_sql(const EntitySpec& entity);                  // the same for id ?1
std::string select_many_sql(const EntitySpec& entity);                 // the same for the ids of the JSON list ?1
std::string select_stretch_sql(const EntitySpec& entity);              // the same for the ids from ?1 to ?2
std::string select_standing_sql(const EntitySpec& entity);             // the same for all that are not struck out
std::string select_referring_sql(const Field& reference);              // the same for those that refer to ?1
std::string select_referring_to_many_sql(const Field& reference);      // the same for a JSON list of them, by owner alone
std::string select_referring_to_stretch_sql(const Field& reference);   // the same for those from ?1 to ?2, by owner alone
std::string referring_ids_sql(const Field& reference);                 // ids of those that refer to ?1, struck out or not
std::string next_id_sql(const EntitySpec& entity);

// Those that read records, made once: a sample is read by many small statements.
struct ReadingStatements {
  struct By {
    std::string one, many, stretch;  // for one id, for a JSON list of ids, for all from one to another
  };
  By by_id;
  std::string standing;
  std::map<std::int64_t, By> referring;  // by the code of the field that refers
};
const ReadingStatements& reading_statements(const EntitySpec& entity);

}  // namespace prillbook::history
