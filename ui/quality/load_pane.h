// SPDX-License-Identifier: GPL-3.0-or-later
// One furnace load: its controls, what was decided of it, and the decision still to be made.
#pragma once

#include <QtWidgets/QWidget>

#include "core/results/run_controls.h"
#include "ui/kit/session.h"
#include "ui/kit/station.h"

class QLabel;

namespace prillbook::ui {

class PickField;
class PressButton;
class ReasonLine;
class RowList;

class LoadPane : public QWidget {
  Q_OBJECT
 public:
  explicit LoadPane(Session& session, QWidget* parent = nullptr);
  void show_load(const results::RunControls& load);
  void enter();

 signals:
  void open_requested(const prillbook::ui::RecordRef& wanted);
  void said(const QString& words);

 private:
  void show_results();
  void show_decisions();
  void show_transfers();
  void accept();
  void ask(const QString& label, const char* decision);
  Result<void> decide(const char* decision, const QString& reason);
  void take_over();
  void show_flushes();
  ChargeId rock_blank() const;

  Session& session_;
  results::RunControls load_;
  RowList* controls_;
  QLabel* results_;
  QLabel* proofs_;
  QLabel* decisions_;
  PressButton* accept_;
  PressButton* hold_;
  PressButton* repeat_;
  PressButton* take_over_;
  ChargeId transfer_;  // whose figure belongs to a lot or to a flush
  PickField* flush_;   // a rock blank may be the assay of one
  ReasonLine* reason_;
};

}  // namespace prillbook::ui
