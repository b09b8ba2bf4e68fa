// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/tables/table.h"

#include <csv.h>
#include <fmt/format.h>

#include <algorithm>
#include <exception>

namespace prillbook::tables {
namespace {

constexpr std::size_t rows_looked_at = 40;
constexpr std::size_t bytes_a_step = 1024;

extern "C" int prillbook_no_blank(unsigned char) { return 0; }

// One run of libcsv. It is given the text line by line, so that every row knows the line it began on; nothing may be
// thrown through its frames.
class Reader {
 public:
  Reader(char delimiter, std::size_t most_rows) : most_rows_(most_rows) {
    ready_ = csv_init(&parser_, CSV_STRICT) == 0;
    csv_set_delim(&parser_, static_cast<unsigned char>(delimiter));
    csv_set_space_func(&parser_, prillbook_no_blank);
    csv_set_blk_size(&parser_, bytes_a_step);
  }
  ~Reader() { csv_free(&parser_); }
  Reader(const Reader&) = delete;
  Reader& operator=(const Reader&) = delete;

  Result<Table> read(std::string_view text) {
    if (!ready_) return no_memory();
    std::size_t at = 0;
    while (at < text.size() && !full() && !fault_) {
      ++line_;
      const std::size_t end = end_of_line(text, at);
      const std::string_view piece = text.substr(at, end - at);
      const std::size_t rows_before = rows_.size();
      if (!in_row_) begun_ = line_;
      PRILLBOOK_TRY(feed(piece));
      in_row_ = rows_.size() == rows_before && (in_row_ || piece.find_first_not_of("\r\n") != std::string_view::npos);
      at = end;
    }
    if (fault_) return *fault_;
    if (full()) return std::move(rows_);
    csv_set_opts(&parser_, CSV_STRICT | CSV_STRICT_FINI);
    if (csv_fini(&parser_, take_cell, take_row, this) != 0)
      return Error{ErrorCode::inconsistent,
                   "quote",
                   fmt::format("the row that begins on line {} has a quote that is never closed", begun_),
                   {std::to_string(begun_)}};
    if (fault_) return *fault_;
    return std::move(rows_);
  }

 private:
  bool full() const { return rows_.size() >= most_rows_; }
  static Error no_memory() { return {ErrorCode::out_of_range, "file_size", "there is not enough memory for the list", {}}; }

  // A quote inside a cell that did not begin with one is a letter; letters after a closing quote are refused, since
  // nobody can say where that cell ends.
  Result<void> feed(std::string_view piece) {
    while (!fault_) {
      csv_set_opts(&parser_, CSV_STRICT);
      piece.remove_prefix(csv_parse(&parser_, piece.data(), piece.size(), take_cell, take_row, this));
      if (piece.empty()) break;
      if (csv_error(&parser_) != CSV_EPARSE) return no_memory();
      if (parser_.quoted)
        return Error{ErrorCode::inconsistent,
                     "after_quote",
                     fmt::format("the row that begins on line {} has letters after a closing quote", begun_),
                     {std::to_string(begun_)}};
      csv_set_opts(&parser_, 0);
      if (csv_parse(&parser_, piece.data(), 1, take_cell, take_row, this) != 1) return no_memory();
      piece.remove_prefix(1);
    }
    return {};
  }

  static std::size_t end_of_line(std::string_view text, std::size_t at) {
    const std::size_t end = text.find_first_of("\r\n", at);
    if (end == std::string_view::npos) return text.size();
    return text[end] == '\r' && end + 1 < text.size() && text[end + 1] == '\n' ? end + 2 : end + 1;
  }

  void refuse(const char* field, std::string_view what) {
    fault_ = Error{ErrorCode::out_of_range, field, fmt::format("line {}: {}", begun_, what), {std::to_string(begun_)}};
  }

  static void take_cell(void* data, std::size_t length, void* self) noexcept {
    Reader& reader = *static_cast<Reader*>(self);
    if (reader.fault_ || reader.full()) return;
    try {
      if (length > largest_cell) return reader.refuse("cell_size", "a cell is larger than a megabyte");
      if (reader.row_.cells.size() >= most_columns) return reader.refuse("columns", "there are too many columns");
      reader.row_.line = reader.begun_;
      reader.row_.cells.emplace_back(static_cast<const char*>(data), length);
    } catch (const std::exception&) {
      reader.fault_ = no_memory();
    }
  }

  static void take_row(int, void* self) noexcept {
    Reader& reader = *static_cast<Reader*>(self);
    if (reader.fault_ || reader.full()) return;
    try {
      reader.rows_.push_back(std::move(reader.row_));
      reader.row_ = {};
    } catch (const std::exception&) {
      reader.fault_ = no_memory();
    }
  }

  csv_parser parser_{};
  bool ready_ = false;
  std::size_t most_rows_;
  long line_ = 0;
  long begun_ = 0;  // line on which the row at hand begins
  bool in_row_ = false;
  TableRow row_;
  Table rows_;
  std::optional<Error> fault_;
};

struct Shape {
  std::size_t columns = 0;  // of the first row
  double same = 0;          // share of rows that have as many
};

Shape shape_of(std::string_view text, char delimiter) {
  const auto rows = parse_table(text, delimiter, rows_looked_at);
  if (!rows || rows->empty()) return {};
  const std::size_t columns = rows->front().cells.size();
  const auto same = std::count_if(rows->begin(), rows->end(), [&](const TableRow& row) { return row.cells.size() == columns; });
  return {columns, double(same) / double(rows->size())};
}

}  // namespace

std::string_view delimiter_name(char delimiter) {
  switch (delimiter) {
    case ',': return "comma";
    case ';': return "semicolon";
    case '\t': return "tab";
    case '|': return "bar";
    default: return "";
  }
}

std::optional<char> delimiter_by_name(std::string_view name) {
  for (const char delimiter : delimiters)
    if (delimiter_name(delimiter) == name || name == std::string_view(&delimiter, 1)) return delimiter;
  return std::nullopt;
}

Result<Table> parse_table(std::string_view text, char delimiter, std::size_t most_rows) {
  return Reader(delimiter, most_rows).read(text);
}

char find_delimiter(std::string_view text) {
  char best = ',';
  Shape best_shape;
  for (const char delimiter : delimiters) {
    const Shape shape = shape_of(text, delimiter);
    if (shape.columns < 2) continue;
    const bool better = shape.same > best_shape.same || (shape.same == best_shape.same && shape.columns > best_shape.columns);
    if (best_shape.columns == 0 || better) best = delimiter, best_shape = shape;
  }
  return best;
}

void MarkEvidence::look_at(std::string_view cell) {
  cell = trimmed(cell);
  if (cell.starts_with('<')) cell.remove_prefix(1);
  const auto by_point = parse_number(cell, DecimalMark::point), by_comma = parse_number(cell, DecimalMark::comma);
  const auto is_doubt = [](const Result<TypedNumber>& number) {
    return !number.ok() && number.error().code == ErrorCode::ambiguous_mark;
  };
  if (is_doubt(by_point) || is_doubt(by_comma)) {
    doubtful_ = true;
    return;
  }
  if (!by_point || !by_comma || cell.find_first_of(".,") == std::string_view::npos) return;
  (by_point->mark == DecimalMark::point ? point_ : comma_) = true;
}

std::optional<DecimalMark> MarkEvidence::found() const {
  if (comma_ == point_) return std::nullopt;
  return comma_ ? DecimalMark::comma : DecimalMark::point;
}

}  // namespace prillbook::tables
