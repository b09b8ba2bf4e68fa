// SPDX-License-Identifier: GPL-3.0-or-later
#include "tests/program/held.h"

#include "core/history/catalogue.h"
#include "core/history/rows.h"
#include "core/history/values.h"
#include "core/readings/reading.h"
#include "core/upkeep/check.h"

namespace prillbook::program {
namespace {

using testing_support::Accepted;

std::string typed(const history::Field& field, const store::Value& value) {
  if (const auto* whole = std::get_if<std::int64_t>(&value)) return std::to_string(*whole);
  const auto* text = std::get_if<std::string>(&value);
  if (!text || field.kind != history::FieldKind::reading) return text ? *text : "";
  const auto reading = readings::decode(*text, *field.measure);
  return reading.ok() ? reading->typed : "";
}

void add_entries(const history::HistoryRow& row, std::multiset<Accepted>& held) {
  const history::EntitySpec* entity = history::find_entity(row.entity);
  if (!entity) return;
  const std::string table(entity->table);
  const auto add = [&](std::int64_t code, const store::Value& value) {
    if (const history::Field* field = history::find_field(*entity, code))
      held.insert({table + "." + std::string(field->column), typed(*field, value)});
  };
  if (row.field != 0) return add(row.field, row.new_value);
  held.insert({table, ""});
  const auto* text = std::get_if<std::string>(&row.new_value);
  const auto made = text ? history::read_made_text(*text) : std::nullopt;
  if (!made) return;
  for (const auto& [code, value] : *made) add(code, value);
}

}  // namespace

Result<std::multiset<Accepted>> held_entries(const std::string& path, const std::string& vfs) {
  PRILLBOOK_ASSIGN(const auto connection, store::Connection::open(path, store::Access::read_write, vfs));
  PRILLBOOK_ASSIGN(const auto report, upkeep::check_notebook(*connection));
  PRILLBOOK_TRY(upkeep::sound_or_error(report, path));
  std::multiset<Accepted> held;
  PRILLBOOK_TRY(history::each_history_row(*connection, [&](const history::HistoryRow& row) -> Result<void> {
    add_entries(row, held);
    return {};
  }));
  return held;
}

std::vector<Accepted> missing(const std::vector<Accepted>& accepted, std::multiset<Accepted> held) {
  std::vector<Accepted> all;
  for (const Accepted& one : accepted) {
    const auto found = held.find(one);
    if (found == held.end())
      all.push_back(one);
    else
      held.erase(found);
  }
  return all;
}

}  // namespace prillbook::program
