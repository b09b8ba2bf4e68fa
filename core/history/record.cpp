// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/history/record.h"

#include <fmt/format.h>

#include "core/history/record_sql.h"

namespace prillbook::history {
namespace {

Result<std::vector<Record>> load(store::Connection& connection, const EntitySpec& spec, const std::string& text,
                                 const store::Arguments& arguments) {
  std::vector<Record> records;
  PRILLBOOK_TRY(connection.rows_derived(text, arguments, [&](const store::Row& row) {
    records.emplace_back(spec, row);
    return true;
  }));
  return records;
}

}  // namespace

Record::Record(const EntitySpec& entity, const store::Row& row) : entity_(&entity), id_(row.integer(0)) {
  for (int column = 1; column < row.columns(); ++column) values_.push_back(row.value(column));
}

bool Record::struck() const { return values_.front() != store::Value{std::int64_t{0}}; }

const store::Value& Record::value(const Field& field) const {
  for (std::size_t i = 0; i < values_.size(); ++i)
    if (entity_->fields[i]->code == field.code) return values_[i];
  static const store::Value absent;
  return absent;
}

std::string Record::text(const Field& field) const { return optional_text(field).value_or(""); }

std::optional<std::string> Record::optional_text(const Field& field) const {
  if (const auto* text = std::get_if<std::string>(&value(field))) return *text;
  return std::nullopt;
}

std::int64_t Record::whole(const Field& field) const { return optional_whole(field).value_or(0); }

std::optional<std::int64_t> Record::optional_whole(const Field& field) const {
  if (const auto* number = std::get_if<std::int64_t>(&value(field))) return *number;
  return std::nullopt;
}

Result<Record> load_record(store::Connection& connection, Entity entity, RecordId id) {
  const EntitySpec& spec = spec_of(entity);
  PRILLBOOK_ASSIGN(const std::vector<Record> found, load(connection, spec, select_one_sql(spec), {id}));
  if (found.empty())
    return Error{ErrorCode::not_found, std::string(spec.table), fmt::format("there is no {} {}", spec.table, id), {}};
  return found.front();
}

Result<std::vector<Record>> load_all(store::Connection& connection, Entity entity) {
  const EntitySpec& spec = spec_of(entity);
  return load(connection, spec, select_standing_sql(spec), {});
}

Result<std::vector<Record>> load_referring(store::Connection& connection, const Field& reference, RecordId id) {
  return load(connection, spec_of(reference.entity), select_referring_sql(reference), {id});
}

}  // namespace prillbook::history
