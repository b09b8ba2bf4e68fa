// SPDX-License-Identifier: GPL-3.0-or-later
// "Show me where this comes from": every figure, unfolding to its formula, source and readings.
#pragma once

#include <QtWidgets/QTreeWidget>
#include <vector>

#include "core/summary/origins.h"

namespace prillbook::ui {

class OriginsView : public QTreeWidget {
  Q_OBJECT
 public:
  explicit OriginsView(QWidget* parent = nullptr);
  void show_origins(const std::vector<summary::Origin>& origins);
};

}  // namespace prillbook::ui
