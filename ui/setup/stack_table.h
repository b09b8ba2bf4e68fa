// SPDX-License-Identifier: GPL-3.0-or-later
// The stacks of the lab: a name and the sieves in it, typed as one line. The foot makes a stack of its openings.
#pragma once

#include <QtWidgets/QWidget>
#include <vector>

#include "core/sieve_records/sieves.h"
#include "ui/kit/fields.h"
#include "ui/kit/session.h"

class QGridLayout;

namespace prillbook::ui {

class StackTable : public QWidget {
  Q_OBJECT
 public:
  explicit StackTable(Session& session, QWidget* parent = nullptr);
  void refresh();
  int count() const { return int(rows_.size()); }
  void enter();  // puts the focus into the foot

 private:
  struct Row {
    SieveStackId id;
    TextField* name;
    TextField* sieves;
  };
  Row make_row(SieveStackId id, int place);
  Result<void> make_stack();

  Session& session_;
  QGridLayout* grid_;
  std::vector<Row> rows_;
  Row foot_{};
};

}  // namespace prillbook::ui
