// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/readings/entry.h"

#include <fmt/format.h>

namespace prillbook::readings {

Result<Figure> figure_of(const history::Record& record, const history::Field& field) {
  const auto cell = record.text_view(field);
  if (!cell) return Figure{};
  auto reading = decode(*cell, field.measure.value_or(Measure::mass));
  if (!reading) {
    Error error = reading.error();
    error.field = fmt::format("{}.{} of {}", history::spec_of(field.entity).table, field.column, record.id());
    return error;
  }
  return Figure{*std::move(reading)};
}

history::Value cell_of(const Figure& figure) {
  if (!figure) return {};
  return encode(*figure);
}

history::Value cell_of(const std::optional<std::string>& text) {
  const std::string_view kept = text ? trimmed(*text) : std::string_view{};
  if (kept.empty()) return {};
  return std::string(kept);
}

history::Value cell_of(const std::optional<Instant>& instant) {
  if (!instant) return {};
  return to_iso(*instant);
}

Result<void> enter(history::Journal& journal, const history::Field& field, RecordId record, history::Value value,
                   const std::optional<std::string>& why) {
  const std::string gesture = fmt::format("enter {}.{}", history::spec_of(field.entity).table, field.column);
  return journal.record(gesture, [&](history::ChangeSet& set) {
    if (why) set.because(*why);
    return set.set(field, record, std::move(value));
  });
}

Result<void> strike_out(history::Journal& journal, history::Entity entity, RecordId record, const std::string& why) {
  const history::EntitySpec& spec = history::spec_of(entity);
  return journal.record(fmt::format("strike out {}", spec.table), [&](history::ChangeSet& set) {
    if (!why.empty()) set.because(why);
    return set.set(*spec.fields.front(), record, std::int64_t{1});
  });
}

}  // namespace prillbook::readings
