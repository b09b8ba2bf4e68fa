// SPDX-License-Identifier: GPL-3.0-or-later
// Which column of a client's list stands for which field of a sample: suggested by the words of its heading, remembered
// for the client.
#pragma once

#include <array>
#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "core/base/id.h"
#include "core/history/journal.h"
#include "core/units/measure.h"

namespace prillbook::intake {

enum class ListField { none, mark, kind, place, expected, condition, mass_declared, mass_received, moisture, remarks };
inline constexpr std::array list_fields{ListField::none,          ListField::mark,          ListField::kind,     ListField::place,
                                        ListField::expected,      ListField::condition,     ListField::mass_declared,
                                        ListField::mass_received, ListField::moisture,      ListField::remarks};

std::string_view list_field_name(ListField field);  // "mark", "mass_declared"; "none"
std::optional<ListField> list_field_by_name(std::string_view name);
// The measure of a figure; none for words.
std::optional<Measure> measure_of(ListField field);
// What the forms take for a bare number: "kg", "%"; empty for words.
std::string_view usual_unit(ListField field);

// What a column is taken for. `unit` counts for bare numbers of a figure; it may be no unit at all, and is refused then
// at every cell.
struct ColumnUse {
  ListField field = ListField::none;
  std::string unit;
  friend bool operator==(const ColumnUse&, const ColumnUse&) = default;
};

// A heading of this client as it was matched before.
struct ColumnMatch {
  std::string heading;  // as folded_heading gives it
  ColumnUse use;
};

// Small letters, blanks trimmed and single.
std::string folded_heading(std::string_view heading);

// One use a column. A remembered match goes before words; a field is given to one column only, the one whose words fit
// best, the first of several.
std::vector<ColumnUse> match_columns(std::span<const std::string> headings, std::span<const ColumnMatch> remembered);
// Whether some heading is a known word: else the first row is no heading.
bool looks_like_heading(std::span<const std::string> cells, std::span<const ColumnMatch> remembered);

Result<std::vector<ColumnMatch>> remembered_matches(store::Connection& connection, ClientId client);
// Writes what differs from what is remembered. Columns without a heading are passed over.
Result<void> remember_matches(history::ChangeSet& set, ClientId client, std::span<const ColumnMatch> matches);

}  // namespace prillbook::intake
