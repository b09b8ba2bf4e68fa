// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/intake/sample_list.h"

#include <fmt/format.h>

#include <algorithm>

#include "core/base/text.h"
#include "core/custody/log_list.h"
#include "core/history/fields.h"
#include "core/intake/statements.h"

namespace prillbook::intake {
namespace {

namespace sample_fields = history::fields::sample;
using tables::TableRow;

bool is_blank(const TableRow& row) {
  return std::all_of(row.cells.begin(), row.cells.end(), [](const std::string& cell) { return trimmed(cell).empty(); });
}

Error unreadable_letter() {
  return {ErrorCode::wrong_type, "letter", "the cell holds a letter that can not be read in this encoding", {}};
}

// One of the words of the field, whatever its case.
Result<std::string> choice_of(const history::Field& field, std::string_view text) {
  const std::string word = lower_ascii(text);
  if (std::find(field.choices.begin(), field.choices.end(), word) != field.choices.end()) return word;
  return Error{ErrorCode::out_of_range,
               "choice",
               fmt::format("'{}' is not one of {}", text, fmt::join(field.choices, ", ")),
               {std::string(text), fmt::format("{}", fmt::join(field.choices, ", "))}};
}

// By the same reading parser as the forms. Without a mark both are tried, and have to say the same.
Result<readings::Reading> figure_in(ListField field, std::string_view text, const std::string& unit,
                                    std::optional<DecimalMark> mark) {
  const auto by = [&](DecimalMark preferred) {
    return readings::parse(text, {*measure_of(field), unit, preferred, field == ListField::moisture});
  };
  if (mark) return by(*mark);
  auto point = by(DecimalMark::point);
  if (!point) return point;
  const auto comma = by(DecimalMark::comma);
  return comma.ok() ? point : comma;
}

Error too_many_cells(std::size_t cells, std::size_t wanted) {
  return {ErrorCode::inconsistent,
          "columns",
          fmt::format("the row has {} cells where {} belong", cells, wanted),
          {std::to_string(cells), std::to_string(wanted)}};
}

// A row with too few cells, one of which could be cut by another delimiter.
bool has_other_delimiter(const TableRow& row, char delimiter) {
  for (const std::string& cell : row.cells)
    for (const char other : tables::delimiters)
      if (other != delimiter && other != ',' && cell.find(other) != std::string::npos) return true;
  return row.cells.size() == 1 && delimiter != ',' && row.cells.front().find(',') != std::string::npos;
}

}  // namespace

Result<ListContext> context_of(store::Connection& connection, ConsignmentId id) {
  PRILLBOOK_ASSIGN(const custody::Consignment held, custody::consignment(connection, id));
  PRILLBOOK_ASSIGN(ListContext context, context_for(connection, held.client));
  PRILLBOOK_TRY(connection.rows(sql::marks_of_consignment, {id.value}, [&](const store::Row& row) {
    context.marks.push_back(row.text(0));
    return true;
  }));
  return context;
}

Result<ListContext> context_for(store::Connection& connection, ClientId client) {
  ListContext context;
  PRILLBOOK_ASSIGN(context.remembered, remembered_matches(connection, client));
  return context;
}

Result<SampleList> SampleList::read(std::string bytes, ListContext context, ListOptions options, std::size_t most_rows) {
  SampleList list;
  list.bytes_ = std::move(bytes);
  list.context_ = std::move(context);
  PRILLBOOK_TRY(list.read_rows(options, most_rows));
  return list;
}

Result<void> SampleList::read_as(const ListOptions& options) { return read_rows(options, all_rows); }

Result<void> SampleList::read_rows(const ListOptions& options, std::size_t most_rows) {
  PRILLBOOK_ASSIGN(const tables::Decoded decoded, tables::decode(bytes_, options.encoding));
  const char delimiter = options.delimiter.value_or(tables::find_delimiter(decoded.text));
  PRILLBOOK_ASSIGN(tables::Table table, tables::parse_table(decoded.text, delimiter, most_rows));
  whole_ = table.size() < most_rows;
  std::erase_if(table, is_blank);
  if (table.empty()) return Error{ErrorCode::missing_key, "rows", "the list holds no row", {}};
  const bool other_columns = delimiter != delimiter_;
  options_ = options;
  encoding_ = decoded.encoding;
  delimiter_ = delimiter;
  table_ = std::move(table);
  heading_row_.reset();
  if (other_columns) columns_.clear();
  for (TableRow& row : table_)
    for (const Correction& correction : corrections_)
      if (correction.line == row.line && correction.column < row.cells.size() &&
          row.cells[correction.column] == correction.before)
        row.cells[correction.column] = correction.after;
  arrange();
  return {};
}

void SampleList::arrange() {
  take_heading();
  std::size_t columns = width_;
  for (const TableRow& row : table_) columns = std::max(columns, row.cells.size());
  std::vector<std::string> headings(columns);
  if (heading_row_) std::copy(heading_row_->cells.begin(), heading_row_->cells.end(), headings.begin());
  const std::vector<ColumnUse> uses = match_columns(headings, context_.remembered);
  columns_.clear();
  for (std::size_t i = 0; i < columns; ++i) columns_.push_back({std::move(headings[i]), uses[i]});
  find_mark();
  check_all();
}

void SampleList::take_heading() {
  if (heading_row_) table_.insert(table_.begin(), *std::exchange(heading_row_, std::nullopt));
  heading_ = options_.heading.value_or(looks_like_heading(table_.front().cells, context_.remembered));
  width_ = table_.front().cells.size();
  if (!heading_) return;
  heading_row_ = std::move(table_.front());
  table_.erase(table_.begin());
}

void SampleList::find_mark() {
  mark_ = options_.mark;
  mark_open_ = false;
  if (mark_) return;
  tables::MarkEvidence evidence;
  for (std::size_t i = 0; i < columns_.size(); ++i)
    if (measure_of(columns_[i].use.field))
      for (std::size_t row = 0; row < table_.size(); ++row) evidence.look_at(cell(row, i));
  mark_ = evidence.found();
  mark_open_ = evidence.open();
}

void SampleList::use_column(std::size_t column, ColumnUse use) {
  if (column >= columns_.size()) return;
  if (use.field != ListField::none)
    for (ListColumn& other : columns_)
      if (other.use.field == use.field) other.use = {};
  columns_[column].use = std::move(use);
  find_mark();
  check_all();
}

void SampleList::say_mark(DecimalMark mark) {
  options_.mark = mark;
  find_mark();
  check_all();
}

void SampleList::say_heading(bool heading) {
  options_.heading = heading;
  arrange();
}

const std::string& SampleList::cell(std::size_t row, std::size_t column) const {
  static const std::string nothing;
  const std::vector<std::string>& cells = table_[row].cells;
  return column < cells.size() ? cells[column] : nothing;
}

void SampleList::set_cell(std::size_t row, std::size_t column, std::string text) {
  if (row >= table_.size() || column >= columns_.size()) return;
  std::vector<std::string>& cells = table_[row].cells;
  if (cells.size() <= column) cells.resize(column + 1);
  const auto before = std::find_if(corrections_.begin(), corrections_.end(),
                                   [&](const Correction& one) { return one.line == table_[row].line && one.column == column; });
  if (before == corrections_.end())
    corrections_.push_back({table_[row].line, column, cells[column], text});
  else
    before->after = text;
  cells[column] = std::move(text);
  // One figure may settle by which mark all others are read; a mark is held against all others.
  if (measure_of(columns_[column].use.field) && !options_.mark) {
    const auto was = mark_;
    find_mark();
    if (was != mark_) return check_all();
  }
  check_row(row);
  check_duplicates();
}

const std::vector<RowNote>& SampleList::notes(std::size_t row) const {
  static const std::vector<RowNote> none;
  const auto found = notes_.find(row);
  return found == notes_.end() ? none : found->second;
}

bool SampleList::refused(std::size_t row) const {
  const auto& all = notes(row);
  return std::any_of(all.begin(), all.end(), [](const RowNote& note) { return !note.warning; });
}

std::size_t SampleList::next_refused(std::size_t from) const {
  if (refused_ == 0) return rows();
  for (std::size_t i = 0; i < rows(); ++i)
    if (const std::size_t row = (from + i) % rows(); refused(row)) return row;
  return rows();
}

std::size_t SampleList::column_of(ListField field) const {
  for (std::size_t i = 0; i < columns_.size(); ++i)
    if (columns_[i].use.field == field) return i;
  return whole_row;
}

void SampleList::check_all() {
  notes_.clear();
  refused_ = 0;
  for (std::size_t row = 0; row < table_.size(); ++row) check_row(row);
  check_duplicates();
}

void SampleList::check_row(std::size_t row) {
  if (refused(row)) --refused_;
  std::vector<RowNote> found;
  const TableRow& cells = table_[row];
  custody::NewSample sample;
  for (std::size_t i = 0; i < columns_.size(); ++i)
    if (auto error = fill(sample, columns_[i], cell(row, i)))
      found.push_back({i, columns_[i].use.field, *std::move(error), false});
  const std::size_t mark = column_of(ListField::mark);
  if (mark == whole_row || trimmed(cell(row, mark)).empty())
    found.push_back({mark, ListField::mark, {ErrorCode::missing_key, "mark", "a sample needs the client's mark", {}}, false});
  bool too_long = false;
  for (std::size_t i = width_; i < cells.cells.size(); ++i) too_long = too_long || !trimmed(cells.cells[i]).empty();
  if (too_long || (cells.cells.size() < width_ && has_other_delimiter(cells, delimiter_)))
    found.push_back({whole_row, ListField::none, too_many_cells(cells.cells.size(), width_), false});
  else if (cells.cells.size() < width_)
    found.push_back({whole_row, ListField::none, too_many_cells(cells.cells.size(), width_), true});
  if (std::any_of(found.begin(), found.end(), [](const RowNote& note) { return !note.warning; })) ++refused_;
  if (found.empty())
    notes_.erase(row);
  else
    notes_[row] = std::move(found);
}

// The same mark twice may be two bags: it is said, and can be entered.
void SampleList::check_duplicates() {
  const auto is_twin = [](const RowNote& note) { return note.error.code == ErrorCode::already_exists; };
  for (auto& [row, all] : notes_) std::erase_if(all, is_twin);
  const std::size_t mark = column_of(ListField::mark);
  if (mark == whole_row) return;
  std::unordered_map<std::string, long> seen;
  for (const std::string& there : context_.marks) seen.emplace(lower_ascii(trimmed(there)), 0);
  for (std::size_t row = 0; row < table_.size(); ++row) {
    const std::string_view text = trimmed(cell(row, mark));
    if (text.empty()) continue;
    const auto [first, fresh] = seen.emplace(lower_ascii(text), table_[row].line);
    if (fresh) continue;
    const std::string where = first->second == 0 ? "in the consignment" : fmt::format("on line {}", first->second);
    Error error{ErrorCode::already_exists,
                "mark",
                fmt::format("the mark '{}' stands {} as well", text, where),
                {std::string(text), std::to_string(first->second)}};
    notes_[row].push_back({mark, ListField::mark, std::move(error), true});
  }
}

// Writes the cell into the sample; the error says why it can't.
std::optional<Error> SampleList::fill(custody::NewSample& sample, const ListColumn& column, const std::string& text) const {
  const std::string_view words = trimmed(text);
  const ListField field = column.use.field;
  if (field == ListField::none || words.empty()) return std::nullopt;
  if (words.find(tables::unreadable) != std::string_view::npos) return unreadable_letter();
  if (!is_utf8(words)) return unreadable_letter();
  const auto take_choice = [&](const history::Field& of, std::optional<std::string>& to) -> std::optional<Error> {
    auto choice = choice_of(of, words);
    if (!choice) return choice.error();
    to = std::move(choice).value();
    return std::nullopt;
  };
  const auto take_figure = [&](readings::Figure& to) -> std::optional<Error> {
    auto figure = figure_in(field, words, column.use.unit, mark_);
    if (!figure) return figure.error();
    to = std::move(figure).value();
    return std::nullopt;
  };
  switch (field) {
    case ListField::none: return std::nullopt;
    case ListField::mark: sample.mark = words; return std::nullopt;
    case ListField::place: sample.place = words; return std::nullopt;
    case ListField::remarks: sample.remarks = words; return std::nullopt;
    case ListField::kind: return take_choice(sample_fields::kind, sample.kind);
    case ListField::expected: return take_choice(sample_fields::expected, sample.expected);
    case ListField::condition: return take_choice(sample_fields::condition, sample.condition);
    case ListField::mass_declared: return take_figure(sample.mass_declared);
    case ListField::mass_received: return take_figure(sample.mass_received);
    case ListField::moisture: return take_figure(sample.moisture);
  }
  return std::nullopt;
}

std::string SampleList::where_of(std::size_t row, ListField field) const {
  const std::string place = fmt::format("rows[{}]", row);
  return field == ListField::none ? place : fmt::format("{}.{}", place, list_field_name(field));
}

Result<custody::NewSample> SampleList::draft(std::size_t row) const {
  for (const RowNote& note : notes(row))
    if (!note.warning) {
      Error error = note.error;
      error.field = where_of(row, note.field);
      error.detail = fmt::format("line {}: {}", line(row), error.detail);
      return error;
    }
  custody::NewSample sample;
  for (std::size_t i = 0; i < columns_.size(); ++i)
    if (auto error = fill(sample, columns_[i], cell(row, i))) return *error;
  return sample;
}

Result<std::vector<SampleId>> enter_list(history::ChangeSet& set, ConsignmentId id, const SampleList& list) {
  PRILLBOOK_ASSIGN(const custody::Consignment held, custody::consignment(set.connection(), id));
  if (!list.is_whole()) return Error{ErrorCode::inconsistent, "rows", "only the beginning of the list was read", {}};
  std::vector<custody::NewSample> samples;
  samples.reserve(list.rows());
  for (std::size_t row = 0; row < list.rows(); ++row) {
    PRILLBOOK_ASSIGN(custody::NewSample sample, list.draft(row));
    samples.push_back(std::move(sample));
  }
  PRILLBOOK_ASSIGN(auto ids, custody::log_samples(set, id, samples));
  std::vector<ColumnMatch> matches;
  for (const ListColumn& column : list.columns())
    if (std::string heading = folded_heading(column.heading); !heading.empty() && is_utf8(heading))
      matches.push_back({std::move(heading), column.use});
  PRILLBOOK_TRY(remember_matches(set, held.client, matches));
  return ids;
}

Result<std::vector<SampleId>> enter_list(history::Journal& journal, ConsignmentId consignment, const SampleList& list) {
  return journal.record_for<std::vector<SampleId>>(list_gesture,
                                                   [&](history::ChangeSet& set) { return enter_list(set, consignment, list); });
}

}  // namespace prillbook::intake
