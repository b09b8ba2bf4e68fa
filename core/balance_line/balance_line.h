// SPDX-License-Identifier: GPL-3.0-or-later
// A tolerant reader of the lines that balances send: sign, figure, unit, a mark that says whether the figure stands still.
#pragma once

#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "core/base/result.h"
#include "core/units/units.h"

namespace prillbook::balance_line {

enum class Stability { stable, moving, overload };

// A pattern of a line; see resources/balance-lines/layouts.txt.
struct Layout {
  enum class What { mark, label, number, unit };
  struct Part {
    What what;
    bool optional = false;
  };
  std::string name;
  std::vector<Part> parts;
  std::vector<std::string> stable, moving, overload;  // marks, small letters
  Stability without_mark = Stability::moving;
};

// One line of a layout file. Errors: out_of_range where it is no layout.
Result<Layout> parse_layout(std::string_view line);
// Those that come with the program, in the order of the file; never empty.
const std::vector<Layout>& layouts();
const Layout* find_layout(std::string_view name);  // null: none of this name

struct Figure {
  Stability stability = Stability::moving;
  std::string typed;  // as a person would type it: "-0.0220 mg", digits and decimal mark as sent; no unit where none came
  bool has_unit = false;
  bool negative = false;
};

// Control characters and blanks at the ends do not matter. Errors: not_a_number (no figure, letters for digits, several
// marks in one), unknown_unit, out_of_range where the line does not follow the layout. The argument is
// the line, made readable and cut to 60 characters.
Result<Figure> read_line(std::string_view line, const Layout& layout);

// The line as it is kept with a reading: characters that can't be printed as \xNN, at most 200.
std::string readable(std::string_view line);

// Puts together lines from pieces as they come. A line ends at CR, LF or both; empty ones count for nothing. A line longer
// than `longest_line` is thrown away whole and counted.
inline constexpr std::size_t longest_line = 200;
class Assembler {
 public:
  std::vector<std::string> feed(std::string_view bytes);
  // What came without its end is forgotten: the port was closed.
  void forget();
  long too_long() const { return too_long_; }
  bool waits_for_end() const { return !held_.empty() || skipping_; }

 private:
  std::string held_;
  bool skipping_ = false;
  long too_long_ = 0;
};

}  // namespace prillbook::balance_line
