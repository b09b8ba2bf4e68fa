// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/versions/names.h"

#include <fmt/format.h>

#include <algorithm>

#include "core/history/fields.h"
#include "core/history/record.h"
#include "core/readings/reading.h"

namespace prillbook::versions {
namespace {

namespace fields = history::fields;
using history::Entity;
using history::EntitySpec;
using history::Field;
using history::FieldKind;

// A record that belongs to itself by a damaged reference ends here.
constexpr int deepest = 12;

std::string spaced(std::string_view name) {
  std::string text(name);
  std::replace(text.begin(), text.end(), '_', ' ');
  return text;
}

bool is_own_name(const Field& field) {
  return field.required && field.kind == FieldKind::text &&
         (field.column == "number" || field.column == "name" || field.column == "initials");
}

}  // namespace

std::string kind_name(const EntitySpec& entity) { return spaced(entity.table); }

std::string field_name(const Field& field) {
  std::string_view column = field.column;
  if (field.kind == FieldKind::reference && column.ends_with("_id")) column.remove_suffix(3);
  return spaced(column);
}

const std::string& Names::within(Entity entity, RecordId id, int depth) {
  const auto found = known_.find({entity, id});
  if (found != known_.end()) return found->second;
  std::string name = look_up(entity, id, depth);
  return known_.try_emplace({entity, id}, std::move(name)).first->second;
}

// Its own name, else that of the first record that it belongs to; who did it is no owner.
std::string Names::look_up(Entity entity, RecordId id, int depth) {
  const auto record = history::load_record(connection_, entity, id);
  if (!record || depth > deepest) return {};
  const EntitySpec& spec = history::spec_of(entity);
  for (const Field* field : spec.fields)
    if (is_own_name(*field)) return record->text(*field);
  std::string owner;
  for (const Field* field : spec.fields)
    if (owner.empty() && field->kind == FieldKind::reference && *field->refers != Entity::person && record->whole(*field))
      owner = within(*field->refers, record->whole(*field), depth + 1);
  const Field* number = history::find_field(spec, std::string_view("number"));
  if (owner.empty() || !number) return owner;
  const std::int64_t own = record->whole(*number);
  return entity == Entity::portion ? fmt::format("{}/{}", owner, own) : fmt::format("{} ({})", owner, own);
}

std::string Names::cell(const Field& field, const store::Value& value) {
  if (const auto* number = std::get_if<std::int64_t>(&value)) {
    if (field.kind == FieldKind::flag) return *number ? "yes" : "no";
    if (field.kind != FieldKind::reference) return std::to_string(*number);
    const std::string& name = of(*field.refers, *number);
    return name.empty() ? fmt::format("{} {}", kind_name(history::spec_of(*field.refers)), *number) : name;
  }
  const auto* text = std::get_if<std::string>(&value);
  if (!text) return {};
  if (field.kind != FieldKind::reading) return *text;
  const auto reading = readings::decode(*text, *field.measure);
  return reading ? reading->typed : *text;
}

std::string record_name(store::Connection& connection, Entity entity, RecordId record) {
  return Names(connection).of(entity, record);
}

std::string cell_text(store::Connection& connection, const Field& field, const store::Value& value) {
  return Names(connection).cell(field, value);
}

}  // namespace prillbook::versions
