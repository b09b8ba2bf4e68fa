// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/intake/columns.h"

#include <algorithm>

#include "core/base/number.h"
#include "core/base/text.h"
#include "core/history/fields.h"
#include "core/history/record.h"
#include "core/intake/statements.h"
#include "core/units/units.h"

namespace prillbook::intake {
namespace {

namespace match_fields = history::fields::column_match;

struct HeadingWord {
  std::string_view words;
  ListField field;
  int weight;  // of several columns for one field the greater weight wins
};

// How clients head their columns: common practice, no source. A mass that says nothing more is the client's own.
constexpr std::array heading_words{
    HeadingWord{"client's mark", ListField::mark, 9},       HeadingWord{"client mark", ListField::mark, 9},
    HeadingWord{"your mark", ListField::mark, 9},           HeadingWord{"our mark", ListField::mark, 9},
    HeadingWord{"mark", ListField::mark, 8},                HeadingWord{"sample mark", ListField::mark, 9},
    HeadingWord{"sample id", ListField::mark, 7},           HeadingWord{"sample no", ListField::mark, 7},
    HeadingWord{"sample number", ListField::mark, 7},       HeadingWord{"sample name", ListField::mark, 7},
    HeadingWord{"sample", ListField::mark, 6},              HeadingWord{"bag no", ListField::mark, 5},
    HeadingWord{"bag number", ListField::mark, 5},          HeadingWord{"bag", ListField::mark, 5},
    HeadingWord{"label", ListField::mark, 4},               HeadingWord{"tag", ListField::mark, 4},
    HeadingWord{"reference", ListField::mark, 3},           HeadingWord{"ref", ListField::mark, 3},
    HeadingWord{"name", ListField::mark, 2},                HeadingWord{"id", ListField::mark, 2},
    HeadingWord{"number", ListField::mark, 1},              HeadingWord{"no", ListField::mark, 1},
    HeadingWord{"nr", ListField::mark, 1},                  HeadingWord{"kind", ListField::kind, 9},
    HeadingWord{"kind of sample", ListField::kind, 9},      HeadingWord{"sample kind", ListField::kind, 9},
    HeadingWord{"sample type", ListField::kind, 8},         HeadingWord{"type", ListField::kind, 7},
    HeadingWord{"place taken", ListField::place, 9},        HeadingWord{"place", ListField::place, 8},
    HeadingWord{"taken at", ListField::place, 8},           HeadingWord{"where taken", ListField::place, 8},
    HeadingWord{"location", ListField::place, 7},           HeadingWord{"locality", ListField::place, 7},
    HeadingWord{"site", ListField::place, 6},               HeadingWord{"where", ListField::place, 5},
    HeadingWord{"expected class", ListField::expected, 9},  HeadingWord{"expected", ListField::expected, 8},
    HeadingWord{"expected grade", ListField::expected, 8},  HeadingWord{"class", ListField::expected, 6},
    HeadingWord{"condition", ListField::condition, 9},      HeadingWord{"condition on receipt", ListField::condition, 9},
    HeadingWord{"bag condition", ListField::condition, 9},  HeadingWord{"mass declared", ListField::mass_declared, 9},
    HeadingWord{"declared mass", ListField::mass_declared, 9}, HeadingWord{"declared weight", ListField::mass_declared, 9},
    HeadingWord{"weight declared", ListField::mass_declared, 9}, HeadingWord{"declared", ListField::mass_declared, 8},
    HeadingWord{"mass", ListField::mass_declared, 7},       HeadingWord{"weight", ListField::mass_declared, 6},
    HeadingWord{"wt", ListField::mass_declared, 5},         HeadingWord{"mass received", ListField::mass_received, 9},
    HeadingWord{"received mass", ListField::mass_received, 9}, HeadingWord{"weight received", ListField::mass_received, 9},
    HeadingWord{"received weight", ListField::mass_received, 9}, HeadingWord{"received", ListField::mass_received, 7},
    HeadingWord{"moisture", ListField::moisture, 9},        HeadingWord{"moisture wet basis", ListField::moisture, 9},
    HeadingWord{"water", ListField::moisture, 6},           HeadingWord{"remarks", ListField::remarks, 9},
    HeadingWord{"remark", ListField::remarks, 9},           HeadingWord{"comments", ListField::remarks, 8},
    HeadingWord{"comment", ListField::remarks, 8},          HeadingWord{"notes", ListField::remarks, 8},
    HeadingWord{"note", ListField::remarks, 8},             HeadingWord{"description", ListField::remarks, 5},
};

struct Heading {
  std::string words;  // without what stands in brackets and without a unit
  std::string unit;   // in brackets, or the last word where that is one
};

bool names_unit(std::string_view text) { return text == "%" || find_mass_unit(text) != nullptr; }

std::string last_word(std::string_view text) {
  const std::size_t blank = text.find_last_of(" ,/");
  return std::string(blank == std::string_view::npos ? std::string_view() : text.substr(blank + 1));
}

// "Mass (kg)", "weight g", "Mass, kg", "mass_kg", "Moisture [%]".
Heading taken_apart(std::string_view heading) {
  Heading parts;
  std::string text = folded_heading(heading);
  std::replace(text.begin(), text.end(), '_', ' ');
  if (const std::size_t open = text.find_first_of("(["); open != std::string::npos) {
    const std::size_t close = text.find_first_of(")]", open);
    parts.unit = std::string(trimmed(std::string_view(text).substr(open + 1, close == std::string::npos ? close : close - open - 1)));
    text.resize(open);
  } else if (const std::string last = last_word(text); names_unit(last)) {
    parts.unit = last;
    text.resize(text.size() - last.size());
  }
  while (!text.empty() && std::string_view(" ,.:;/#").find(text.back()) != std::string_view::npos) text.pop_back();
  if (text.ends_with(" in")) text.resize(text.size() - 3);
  std::erase(text, '.');
  std::erase(text, ',');
  parts.words = folded_heading(text);
  return parts;
}

const HeadingWord* known_word(const Heading& heading) {
  const auto found = std::find_if(heading_words.begin(), heading_words.end(),
                                  [&](const HeadingWord& word) { return word.words == heading.words; });
  return found == heading_words.end() ? nullptr : &*found;
}

const ColumnMatch* match_of(std::span<const ColumnMatch> remembered, const std::string& folded) {
  const auto found =
      std::find_if(remembered.begin(), remembered.end(), [&](const ColumnMatch& match) { return match.heading == folded; });
  return found == remembered.end() ? nullptr : &*found;
}

struct Stored {
  RecordId id;
  bool struck;
  ColumnMatch match;
};

Result<std::vector<Stored>> stored_matches(store::Connection& connection, ClientId client) {
  std::vector<Stored> all;
  PRILLBOOK_TRY(connection.rows(sql::matches_of_client, {client.value}, [&](const store::Row& row) {
    const auto field = list_field_by_name(row.text(3));
    all.push_back({row.integer(0), row.integer(1) != 0, {row.text(2), {field.value_or(ListField::none), row.text(4)}}});
    return true;
  }));
  return all;
}

history::Value unit_cell(const ColumnUse& use) { return use.unit.empty() ? history::Value{} : history::Value{use.unit}; }

}  // namespace

std::string_view list_field_name(ListField field) { return match_fields::targets[static_cast<std::size_t>(field)]; }

std::optional<ListField> list_field_by_name(std::string_view name) {
  for (const ListField field : list_fields)
    if (list_field_name(field) == name) return field;
  return std::nullopt;
}

std::optional<Measure> measure_of(ListField field) {
  if (field == ListField::mass_declared || field == ListField::mass_received) return Measure::mass;
  if (field == ListField::moisture) return Measure::share;
  return std::nullopt;
}

std::string_view usual_unit(ListField field) {
  const auto measure = measure_of(field);
  return !measure ? "" : *measure == Measure::mass ? "kg" : "%";
}

std::string folded_heading(std::string_view heading) {
  std::string folded;
  for (const char c : lower_ascii(trimmed(heading))) {
    const bool blank = c == ' ' || c == '\t' || c == '\n' || c == '\r';
    if (!blank)
      folded += c;
    else if (!folded.empty() && folded.back() != ' ')
      folded += ' ';
  }
  while (!folded.empty() && folded.back() == ' ') folded.pop_back();
  return folded;
}

std::vector<ColumnUse> match_columns(std::span<const std::string> headings, std::span<const ColumnMatch> remembered) {
  std::vector<ColumnUse> uses(headings.size());
  std::vector<int> weights(headings.size(), 0);
  std::array<std::size_t, list_fields.size()> owner;
  owner.fill(headings.size());
  const auto give = [&](std::size_t column, ColumnUse use, int weight) {
    if (use.field == ListField::none) return;
    std::size_t& holder = owner[static_cast<std::size_t>(use.field)];
    if (holder < headings.size()) {
      if (weights[holder] >= weight) return;
      uses[holder] = {};
    }
    holder = column;
    weights[column] = weight;
    uses[column] = std::move(use);
  };
  constexpr int as_before = 100;
  for (std::size_t i = 0; i < headings.size(); ++i) {
    if (const ColumnMatch* match = match_of(remembered, folded_heading(headings[i]))) {
      give(i, match->use, as_before);
      continue;
    }
    const Heading heading = taken_apart(headings[i]);
    const HeadingWord* word = known_word(heading);
    if (!word) continue;
    const std::string unit = heading.unit.empty() ? std::string(usual_unit(word->field)) : heading.unit;
    give(i, {word->field, measure_of(word->field) ? unit : std::string()}, word->weight);
  }
  return uses;
}

bool looks_like_heading(std::span<const std::string> cells, std::span<const ColumnMatch> remembered) {
  return std::any_of(cells.begin(), cells.end(), [&](const std::string& cell) {
    return match_of(remembered, folded_heading(cell)) || known_word(taken_apart(cell));
  });
}

Result<std::vector<ColumnMatch>> remembered_matches(store::Connection& connection, ClientId client) {
  PRILLBOOK_ASSIGN(const auto stored, stored_matches(connection, client));
  std::vector<ColumnMatch> matches;
  for (const Stored& one : stored)
    if (!one.struck) matches.push_back(one.match);
  return matches;
}

Result<void> remember_matches(history::ChangeSet& set, ClientId client, std::span<const ColumnMatch> matches) {
  PRILLBOOK_ASSIGN(auto stored, stored_matches(set.connection(), client));
  for (const ColumnMatch& match : matches) {
    if (match.heading.empty()) continue;
    const history::Value target{std::string(list_field_name(match.use.field))};
    const auto there =
        std::find_if(stored.begin(), stored.end(), [&](const Stored& one) { return one.match.heading == match.heading; });
    if (there == stored.end()) {
      PRILLBOOK_ASSIGN(const RecordId id, set.make(history::Entity::column_match, {{match_fields::client, client.value},
                                                                                   {match_fields::heading, match.heading},
                                                                                   {match_fields::field, target},
                                                                                   {match_fields::unit, unit_cell(match.use)}}));
      stored.push_back({id, false, match});
      continue;
    }
    PRILLBOOK_TRY(set.set(match_fields::struck, there->id, std::int64_t{0}));
    PRILLBOOK_TRY(set.set(match_fields::field, there->id, target));
    PRILLBOOK_TRY(set.set(match_fields::unit, there->id, unit_cell(match.use)));
  }
  return {};
}

}  // namespace prillbook::intake
