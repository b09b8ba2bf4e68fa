// SPDX-License-Identifier: GPL-3.0-or-later
// A client's list of samples on its way into the notebook: read, shown, corrected, and entered whole or not at all. The
// window and the batch verb use the same. Nothing here opens a file.
#pragma once

#include <cstddef>
#include <limits>
#include <optional>
#include <string>
#include <unordered_map>
#include <vector>

#include "core/base/result.h"
#include "core/custody/custody.h"
#include "core/intake/columns.h"
#include "core/tables/encoding.h"
#include "core/tables/table.h"

namespace prillbook::intake {

// Where the list goes and what is known there.
struct ListContext {
  std::vector<ColumnMatch> remembered;
  std::vector<std::string> marks;  // of the consignment, already logged
};
// Errors: not_found.
Result<ListContext> context_of(store::Connection& connection, ConsignmentId consignment);
// For a consignment that is still to be logged.
Result<ListContext> context_for(store::Connection& connection, ClientId client);

inline constexpr std::string_view list_gesture = "import list";

// What somebody has said about the file; the rest is found.
struct ListOptions {
  std::optional<tables::Encoding> encoding;
  std::optional<char> delimiter;
  std::optional<DecimalMark> mark;
  std::optional<bool> heading;  // whether the first row is one
};

inline constexpr std::size_t all_rows = std::numeric_limits<std::size_t>::max();
inline constexpr std::size_t whole_row = std::numeric_limits<std::size_t>::max();

// Why a row has to be looked at.
struct RowNote {
  std::size_t column = whole_row;
  ListField field = ListField::none;
  Error error;
  bool warning = false;  // the row can be entered all the same
};

struct ListColumn {
  std::string heading;  // empty where the list has none
  ColumnUse use;
};

class SampleList {
 public:
  // Errors: as tables::decode and tables::parse_table; missing_key where the list has no row (field "rows"). With `most_rows`
  // only the beginning is read, to be shown at once; read_rest reads all.
  static Result<SampleList> read(std::string bytes, ListContext context, ListOptions options = {},
                                 std::size_t most_rows = all_rows);
  bool is_whole() const { return whole_; }
  Result<void> read_rest() { return read_as(ListOptions(options_)); }
  // Reads the bytes again; corrected cells stay corrected where the cell still holds the text that was corrected. The
  // list is as before where it is refused.
  Result<void> read_as(const ListOptions& options);

  tables::Encoding encoding() const { return encoding_; }
  char delimiter() const { return delimiter_; }
  // None where cells can be read by either mark and nobody has said which: those cells are refused.
  std::optional<DecimalMark> mark() const { return mark_; }
  bool mark_is_open() const { return mark_open_; }
  bool has_heading() const { return heading_; }
  const ListOptions& options() const { return options_; }

  const std::vector<ListColumn>& columns() const { return columns_; }
  // A field stands in one column: the one that had it before is passed over.
  void use_column(std::size_t column, ColumnUse use);
  void say_mark(DecimalMark mark);
  void say_heading(bool heading);

  std::size_t rows() const { return table_.size(); }
  const std::string& cell(std::size_t row, std::size_t column) const;  // empty where the row is shorter
  long line(std::size_t row) const { return table_[row].line; }        // of the file
  void set_cell(std::size_t row, std::size_t column, std::string text);

  const std::vector<RowNote>& notes(std::size_t row) const;
  // Rows that can't be entered as they are.
  std::size_t refused_rows() const { return refused_; }
  bool refused(std::size_t row) const;
  // The first refused row at or after `from`, going round; rows() where there is none.
  std::size_t next_refused(std::size_t from) const;

  // The sample of a row, its consignment left open. Errors: the first refusal of the row.
  Result<custody::NewSample> draft(std::size_t row) const;

 private:
  struct Correction {
    long line;
    std::size_t column;
    std::string before, after;
  };
  SampleList() = default;
  Result<void> read_rows(const ListOptions& options, std::size_t most_rows);
  void arrange();  // heading, columns, marks, notes: all that follows from the table
  void take_heading();
  void find_mark();
  void check_all();
  void check_row(std::size_t row);
  void check_duplicates();
  std::size_t column_of(ListField field) const;
  std::string where_of(std::size_t row, ListField field) const;
  std::optional<Error> fill(custody::NewSample& sample, const ListColumn& column, const std::string& text) const;

  std::string bytes_;
  ListContext context_;
  ListOptions options_;
  bool whole_ = true;
  std::vector<Correction> corrections_;

  tables::Encoding encoding_ = tables::Encoding::utf8;
  char delimiter_ = ',';
  std::optional<DecimalMark> mark_;
  bool mark_open_ = false;
  bool heading_ = false;
  std::optional<tables::TableRow> heading_row_;
  tables::Table table_;  // without the heading
  std::vector<ListColumn> columns_;
  std::size_t width_ = 0;  // cells that a row should have
  std::unordered_map<std::size_t, std::vector<RowNote>> notes_;
  std::size_t refused_ = 0;
};

// All samples of the list and what its headings stand for, in the change set. Errors: the first refusal, with its place
// as field: "rows[2].mass_received", rows from 0 without the heading; inconsistent where only the beginning was read.
Result<std::vector<SampleId>> enter_list(history::ChangeSet& set, ConsignmentId consignment, const SampleList& list);
Result<std::vector<SampleId>> enter_list(history::Journal& journal, ConsignmentId consignment, const SampleList& list);

}  // namespace prillbook::intake
