// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/history/cells.h"

namespace prillbook::history {

void Cells::add(const store::Row& row) {
  for (int column = 1, last = row.columns(); column < last; ++column) cells_.push_back(cell_of(row.view(column)));
}

Cells::Cell Cells::cell_of(const store::ValueView& value) {
  if (const auto* number = std::get_if<std::int64_t>(&value)) return {*number, 0, Kind::whole};
  const auto* const text = std::get_if<std::string_view>(&value);
  if (!text) return {};
  const Cell cell{std::int64_t(texts_.size()), std::uint32_t(text->size()), Kind::text};
  texts_.append(*text);
  return cell;
}

std::optional<std::int64_t> Cells::whole(std::size_t cell) const {
  const Cell& held = cells_[cell];
  return held.kind == Kind::whole ? std::optional(held.whole_or_place) : std::nullopt;
}

std::optional<std::string_view> Cells::text(std::size_t cell) const {
  const Cell& held = cells_[cell];
  if (held.kind != Kind::text) return std::nullopt;
  return std::string_view(texts_).substr(std::size_t(held.whole_or_place), held.length);
}

}  // namespace prillbook::history
