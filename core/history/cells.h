// SPDX-License-Identifier: GPL-3.0-or-later
// What the cells of many records hold, kept close together: numbers in place, texts one behind the other.
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "core/store/connection.h"

namespace prillbook::history {

class Cells {
 public:
  void reserve(std::size_t cells) { cells_.reserve(cells); }
  void add(const store::Row& row);  // every column but the first, the id

  std::size_t size() const { return cells_.size(); }
  std::size_t capacity() const { return cells_.capacity(); }
  std::optional<std::int64_t> whole(std::size_t cell) const;     // where it holds a number
  std::optional<std::string_view> text(std::size_t cell) const;  // where it holds a text

 private:
  enum class Kind : std::uint8_t { nothing, whole, text };
  struct Cell {
    std::int64_t whole_or_place = 0;  // a text begins there
    std::uint32_t length = 0;         // SQLite holds no text of 4 GiB
    Kind kind = Kind::nothing;
  };
  Cell cell_of(const store::ValueView& value);

  std::vector<Cell> cells_;
  std::string texts_;
};

}  // namespace prillbook::history
