// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/quality/row_list.h"

#include <algorithm>

#include "ui/kit/theme.h"

namespace prillbook::ui {
namespace {

constexpr int most_in_sight = 6;

}  // namespace

RowList::RowList(const QString& accessible_name, QWidget* parent) : WaitingList(accessible_name, parent) {
  setViewportMargins(-3 * rhythm, 0, 0, 0);  // its words stand in line with those of the page
  read_from([this](int from, int count) -> std::vector<WaitingRow> {
    if (from >= int(shown_.size())) return {};
    return {shown_.begin() + from, shown_.begin() + std::min(int(shown_.size()), from + count)};
  });
}

void RowList::show_rows(std::vector<WaitingRow> rows) {
  shown_ = std::move(rows);
  refresh();
  setVisible(!shown_.empty());
  setFixedHeight(std::min(int(shown_.size()), most_in_sight) * std::max(1, sizeHintForRow(0)) + 2);
}

}  // namespace prillbook::ui
