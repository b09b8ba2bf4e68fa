// SPDX-License-Identifier: GPL-3.0-or-later
// Entering one field of one record: the command behind a field of the window that is bound by no rule but its own.
// Fields that depend on other records (a portion's mass, a weighing) have commands of their own in their domain.
#pragma once

#include <optional>
#include <string>

#include "core/history/journal.h"
#include "core/history/record.h"
#include "core/readings/reading.h"

namespace prillbook::readings {

// A figure that may be absent.
using Figure = std::optional<Reading>;

// Errors: damaged where the cell is no reading.
Result<Figure> figure_of(const history::Record& record, const history::Field& field);

history::Value cell_of(const Figure& figure);
history::Value cell_of(const std::optional<std::string>& text);  // blanks trimmed; empty becomes absent
inline history::Value cell_of(const std::optional<std::int64_t>& number) {
  return number ? history::Value{*number} : history::Value{};
}
history::Value cell_of(const std::optional<Instant>& instant);
template <class Tag>
history::Value cell_of(const Id<Tag>& id) {
  return id ? history::Value{id.value} : history::Value{};
}

// One gesture that writes one field. `why` stands beside it in the history. Errors as ChangeSet::set.
Result<void> enter(history::Journal& journal, const history::Field& field, RecordId record, history::Value value,
                   const std::optional<std::string>& why = std::nullopt);

// Strikes a record out. Nothing is ever deleted.
Result<void> strike_out(history::Journal& journal, history::Entity entity, RecordId record, const std::string& why);

}  // namespace prillbook::readings
