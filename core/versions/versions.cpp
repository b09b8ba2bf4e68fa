// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/versions/versions.h"

#include <algorithm>

#include "core/base/text.h"
#include "core/history/record_sql.h"
#include "core/history/rows.h"
#include "core/history/values.h"
#include "core/versions/names.h"
#include "core/versions/statements.h"

namespace prillbook::versions {
namespace {

using history::Entity;
using history::EntitySpec;
using history::Field;
using history::FieldKind;
using history::HistoryRow;
using store::Connection;

// Rows come newest first, so that what takes a row back was seen before it. A gesture that was taken back itself takes
// nothing back.
void see(const HistoryRow& row, std::set<std::int64_t>& undone) {
  if (row.takes_back && !undone.contains(row.change_set)) undone.insert(*row.takes_back);
}

Result<Standing> standing_of(Connection& connection, const HistoryRow& row) {
  if (!row.takes_back) return Standing::usual;
  PRILLBOOK_ASSIGN(const std::int64_t of_that, connection.integer(sql::takes_back_of, {*row.takes_back}));
  return of_that ? Standing::redoes : Standing::undoes;
}

// What belongs to one sample; the walk from a sample goes no further.
bool is_of_a_sample(Entity entity) {
  constexpr Entity owned[] = {Entity::portion,    Entity::pan_test,   Entity::charge,         Entity::bead,
                              Entity::weighing,   Entity::answer,     Entity::own_metal,      Entity::told_figure,
                              Entity::attachment, Entity::hand_over,  Entity::step,           Entity::step_share,
                              Entity::metallics,  Entity::panning,    Entity::sieve_analysis, Entity::sieve_cut,
                              Entity::proof,      Entity::tray_place, Entity::summary_sample, Entity::charge_design};
  return std::find(std::begin(owned), std::end(owned), entity) != std::end(owned);
}

// Records of one kind that belong to `to`. A charge that repeats or doubles another is no part of it.
Result<void> add_referring(Connection& connection, const EntitySpec& entity, const RecordKey& to, std::vector<RecordKey>& found) {
  for (const Field* field : entity.fields) {
    if (field->kind != FieldKind::reference || *field->refers != to.first || to.first == entity.entity) continue;
    PRILLBOOK_TRY(connection.rows_derived(history::referring_ids_sql(*field), {to.second}, [&](const store::Row& row) {
      const RecordKey key(entity.entity, row.integer(0));
      if (std::find(found.begin(), found.end(), key) == found.end()) found.push_back(key);
      return true;
    }));
  }
  return {};
}

std::string made_words(Names& names, const EntitySpec& entity, const HistoryRow& row) {
  const auto* text = std::get_if<std::string>(&row.new_value);
  const auto made = text ? history::read_made_text(*text) : std::nullopt;
  std::string words;
  if (!made) return words;
  for (const auto& [code, value] : *made)
    if (const Field* field = history::find_field(entity, code))
      words += (words.empty() ? "" : "; ") + field_name(*field) + " " + names.cell(*field, value);
  return words;
}

// Whether the words stand in what a person sees of the entry, not only in how it is stored.
bool says(Connection& connection, const HistoryRow& row, const std::string& words) {
  const Words shown = words_of(connection, row);
  const std::string wanted = lower_ascii(words);
  for (const std::string& text : {row.gesture, row.why.value_or(""), shown.old_text, shown.new_text})
    if (lower_ascii(text).find(wanted) != std::string::npos) return true;
  return false;
}

// As LIKE wants it, between two marks for anything.
std::string like_pattern(const std::string& words) {
  if (words.empty()) return {};
  std::string pattern = "%";
  for (const char c : words) {
    if (c == '%' || c == '_' || c == '\\') pattern += '\\';
    pattern += c;
  }
  return pattern + "%";
}

}  // namespace

std::string standing_name(const Version& version) {
  if (version.undone) return "taken back";
  if (version.standing == Standing::undoes) return "takes back";
  return version.standing == Standing::redoes ? "puts back" : "";
}

Result<std::vector<Version>> versions_of(Connection& connection, const std::vector<RecordKey>& records) {
  std::vector<Version> versions;
  for (const auto& [entity, record] : records) {
    PRILLBOOK_ASSIGN(const auto rows, history::record_history(connection, entity, record));
    for (const HistoryRow& row : rows) {
      PRILLBOOK_ASSIGN(const Standing standing, standing_of(connection, row));
      versions.push_back({row, standing});
    }
  }
  std::sort(versions.begin(), versions.end(), [](const Version& a, const Version& b) { return a.row.id < b.row.id; });
  std::set<std::int64_t> undone;
  for (auto version = versions.rbegin(); version != versions.rend(); ++version) {
    see(version->row, undone);
    version->undone = undone.contains(version->row.change_set);
  }
  return versions;
}

Result<std::vector<RecordKey>> records_of_sample(Connection& connection, RecordId sample) {
  std::vector<RecordKey> found{{Entity::sample, sample}};
  for (std::size_t next = 0; next < found.size(); ++next)
    for (const EntitySpec& entity : history::catalogue())
      if (is_of_a_sample(entity.entity)) PRILLBOOK_TRY(add_referring(connection, entity, RecordKey(found[next]), found));
  return found;
}

Words words_of(Connection& connection, const HistoryRow& row) {
  Names names(connection);
  return words_of(names, row);
}

Words words_of(Names& names, const HistoryRow& row) {
  const EntitySpec* entity = history::find_entity(row.entity);
  if (!entity) return {std::to_string(row.entity), {}, {}, {}, {}};
  Words words{kind_name(*entity), names.of(entity->entity, row.record), {}, {}, {}};
  if (row.field == 0) {
    words.new_text = made_words(names, *entity, row);
    return words;
  }
  const Field* field = history::find_field(*entity, row.field);
  if (!field) return words;
  words.field = field_name(*field);
  words.old_text = names.cell(*field, row.old_value);
  words.new_text = names.cell(*field, row.new_value);
  return words;
}

JournalReader::JournalReader(Connection& connection, JournalFilter filter)
    : connection_(connection), filter_(std::move(filter)), pattern_(like_pattern(filter_.words)) {}

Result<JournalReader::Page> JournalReader::next(std::size_t most, std::int64_t most_looked_at) {
  if (!before_) {
    PRILLBOOK_ASSIGN(const std::int64_t last, entries(connection_));
    before_ = last + 1;
  }
  Page page;
  const std::int64_t start = *before_;
  PRILLBOOK_TRY(read(std::max<std::int64_t>(start - most_looked_at, 1), most, page));
  page.looked_at = start - *before_;
  page.end = *before_ <= 1;
  for (Version& version : page.versions) {
    PRILLBOOK_ASSIGN(version.standing, standing_of(connection_, version.row));
  }
  return page;
}

Result<void> JournalReader::read(std::int64_t from, std::size_t most, Page& page) {
  constexpr int fits_column = 14;
  const std::int64_t before = *before_;
  before_ = from;
  return connection_.rows(
      sql::journal_rows,
      {from, before, std::string_view(filter_.who), filter_.kind ? std::int64_t(*filter_.kind) : std::int64_t{0},
       store::as_argument(filter_.from_ms), store::as_argument(filter_.until_ms), std::string_view(pattern_)},
      [&](const store::Row& line) {
        const HistoryRow row = history::read_history_row(line);
        see(row, undone_);
        if (!line.integer(fits_column)) return true;
        if (!filter_.words.empty() && !says(connection_, row, filter_.words)) return true;
        page.versions.push_back({row, Standing::usual, undone_.contains(row.change_set)});
        if (page.versions.size() < most) return true;
        before_ = row.id;
        return false;
      });
}

Result<std::int64_t> entries(Connection& connection) { return connection.integer(sql::last_entry_id); }

Result<std::vector<std::string>> authors(Connection& connection) {
  std::vector<std::string> initials;
  PRILLBOOK_TRY(connection.rows(sql::authors, {}, [&](const store::Row& row) {
    initials.push_back(row.text(0));
    return true;
  }));
  return initials;
}

}  // namespace prillbook::versions
