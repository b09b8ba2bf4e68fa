// SPDX-License-Identifier: GPL-3.0-or-later
// A list as rows of cells, by RFC 4180 and a little more forgiving: any line end, semicolon, tab or bar as delimiter, a
// quote inside a cell that did not begin with one. Blank lines are passed over. Nothing is trimmed, nothing computed:
// "=1+1" is four letters.
#pragma once

#include <array>
#include <limits>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "core/base/number.h"
#include "core/base/result.h"

namespace prillbook::tables {

inline constexpr std::array delimiters{',', ';', '\t', '|'};
std::string_view delimiter_name(char delimiter);  // "comma", "semicolon", "tab", "bar"
std::optional<char> delimiter_by_name(std::string_view name);

inline constexpr std::size_t largest_cell = 1u << 20;  // bytes
inline constexpr std::size_t most_columns = 200;

struct TableRow {
  long line = 0;  // of the file, from 1; where the row begins
  std::vector<std::string> cells;
};
using Table = std::vector<TableRow>;

// Reads at most `most_rows` rows. `text` is UTF-8. Errors, with the line as argument: inconsistent where a quote is
// never closed (field "quote"; the line where its row begins) or letters follow it ("after_quote"); out_of_range for a larger cell or more columns (fields
// "cell_size", "columns").
Result<Table> parse_table(std::string_view text, char delimiter, std::size_t most_rows = std::numeric_limits<std::size_t>::max());

// The delimiter that gives the first rows the same number of cells, above one; of several, the one that gives most.
// A comma where none does.
char find_delimiter(std::string_view text);

// What cells say about the decimal mark of a list.
class MarkEvidence {
 public:
  void look_at(std::string_view cell);
  // The mark that some cell can only be read with and no cell contradicts; none where cells contradict each other or
  // where every mark could also separate thousands.
  std::optional<DecimalMark> found() const;
  // True where a cell means something else by the other mark, so that somebody has to say.
  bool open() const { return doubtful_ && !found(); }

 private:
  bool comma_ = false, point_ = false, doubtful_ = false;
};

}  // namespace prillbook::tables
