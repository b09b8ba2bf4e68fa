// SPDX-License-Identifier: GPL-3.0-or-later
// One load of the furnace: its temperatures with their chart, its charges, its proofs.
#pragma once

#include <QtWidgets/QWidget>
#include <memory>
#include <vector>

#include "core/fire/runs.h"
#include "ui/kit/session.h"

class QLabel;
class QVBoxLayout;

namespace prillbook::ui {

class PressButton;
class RecordFields;
class TemperatureChart;
class WholeField;

class RunPane : public QWidget {
  Q_OBJECT
 public:
  explicit RunPane(Session& session, QWidget* parent = nullptr);
  void show_run(FurnaceRunId run);
  void refresh();
  void enter();

 signals:
  void said(const QString& words);

 private:
  void add_proof();
  void show_proofs(const fire::FurnaceRun& run);
  Result<void> note(std::optional<std::int64_t> read_c);

  Session& session_;
  FurnaceRunId run_;
  RecordFields* fields_;
  WholeField* read_;
  TemperatureChart* chart_;
  QLabel* log_;
  QLabel* charges_;
  QLabel* loss_;
  QWidget* proofs_;
  QVBoxLayout* proofs_column_;
  std::vector<RecordFields*> proof_fields_;
  std::vector<RecordId> proofs_shown_;
};

}  // namespace prillbook::ui
