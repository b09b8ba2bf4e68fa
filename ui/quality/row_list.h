// SPDX-License-Identifier: GPL-3.0-or-later
// A short list on a page: two lines a row, as tall as its rows.
#pragma once

#include <vector>

#include "ui/kit/waiting_list.h"

namespace prillbook::ui {

class RowList : public WaitingList {
  Q_OBJECT
 public:
  explicit RowList(const QString& accessible_name, QWidget* parent = nullptr);
  void show_rows(std::vector<WaitingRow> rows);  // hidden where there are none

 private:
  std::vector<WaitingRow> shown_;
};

}  // namespace prillbook::ui
