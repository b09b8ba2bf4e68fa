// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/history/record.h"

#include <fmt/format.h>

#include <array>

#include "core/history/read_ahead.h"
#include "core/history/record_sql.h"

namespace prillbook::history {
namespace {

constexpr std::size_t codes = 128;  // of entities and of fields
using Positions = std::array<std::array<std::uint8_t, codes>, codes>;

// Where a field stands among those of its entity, from 1.
const Positions& positions() {
  static const Positions made = [] {
    Positions all{};
    for (const EntitySpec& spec : catalogue())
      for (std::size_t i = 0; i < spec.fields.size(); ++i)
        all.at(std::size_t(spec.entity)).at(std::size_t(spec.fields[i]->code)) = std::uint8_t(i + 1);
    return all;
  }();
  return made;
}

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
  auto cells = std::make_shared<Cells>();
  cells->reserve(entity.fields.size());
  cells->add(row);
  cells_ = std::move(cells);
}

Record::Record(const EntitySpec& entity, RecordId id, std::shared_ptr<const Cells> cells, std::size_t first)
    : entity_(&entity), id_(id), cells_(std::move(cells)), first_(first) {}

bool Record::struck() const { return cells_->whole(first_) != 0; }

std::optional<std::size_t> Record::cell(const Field& field) const {
  const std::size_t position = positions()[std::size_t(entity_->entity)][std::size_t(field.code)];
  return position == 0 ? std::nullopt : std::optional(first_ + position - 1);
}

store::Value Record::value(const Field& field) const {
  if (const auto number = optional_whole(field)) return *number;
  if (const auto words = text_view(field)) return std::string(*words);
  return {};
}

std::string Record::text(const Field& field) const { return std::string(text_view(field).value_or("")); }

std::optional<std::string> Record::optional_text(const Field& field) const {
  return std::optional<std::string>(text_view(field));
}

std::optional<std::string_view> Record::text_view(const Field& field) const {
  const auto at = cell(field);
  return at ? cells_->text(*at) : std::nullopt;
}

std::int64_t Record::whole(const Field& field) const { return optional_whole(field).value_or(0); }

std::optional<std::int64_t> Record::optional_whole(const Field& field) const {
  const auto at = cell(field);
  return at ? cells_->whole(*at) : std::nullopt;
}

Result<Record> load_record(Source source, Entity entity, RecordId id) {
  if (const Record* const held = source.ahead() ? source.ahead()->find(entity, id) : nullptr) return *held;
  const EntitySpec& spec = spec_of(entity);
  PRILLBOOK_ASSIGN(std::vector<Record> found, load(source.connection(), spec, reading_statements(spec).by_id.one, {id}));
  if (found.empty())
    return Error{ErrorCode::not_found, std::string(spec.table), fmt::format("there is no {} {}", spec.table, id), {}};
  return std::move(found.front());
}

Result<std::vector<Record>> load_all(store::Connection& connection, Entity entity) {
  const EntitySpec& spec = spec_of(entity);
  return load(connection, spec, reading_statements(spec).standing, {});
}

Result<std::vector<Record>> load_referring(Source source, const Field& reference, RecordId id) {
  if (const auto held = source.ahead() ? source.ahead()->find(reference, id) : std::nullopt)
    return std::vector<Record>(held->begin(), held->end());
  const EntitySpec& spec = spec_of(reference.entity);
  return load(source.connection(), spec, reading_statements(spec).referring.at(reference.code).one, {id});
}

}  // namespace prillbook::history
