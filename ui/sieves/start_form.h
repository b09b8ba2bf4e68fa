// SPDX-License-Identifier: GPL-3.0-or-later
// A portion that waits: take a stack by its name, or type its openings, and the analysis begins.
#pragma once

#include <QtWidgets/QWidget>

#include "core/sieve_records/analyses.h"
#include "ui/kit/fields.h"
#include "ui/kit/session.h"

class QLabel;

namespace prillbook::ui {

class StartForm : public QWidget {
  Q_OBJECT
 public:
  explicit StartForm(Session& session, QWidget* parent = nullptr);
  void show_portion(PortionId portion);
  void refresh();
  void enter();

 signals:
  void started(prillbook::SieveAnalysisId id);

 private:
  Result<void> start(SieveStackId stack);
  void show_overdue(const std::vector<sieves::Stack>& stacks);

  Session& session_;
  PortionId portion_;
  PickField* stack_;
  QLabel* known_;
  QLabel* overdue_;
};

}  // namespace prillbook::ui
