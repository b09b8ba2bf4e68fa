// SPDX-License-Identifier: GPL-3.0-or-later
// Quality: what is due, furnace loads to decide on, control materials with their charts, duplicates.
#pragma once

#include <vector>

#include "core/results/run_controls.h"
#include "ui/kit/session.h"
#include "ui/kit/station.h"

namespace prillbook::ui {

class DuePane;
class Headline;
class LoadPane;
class MaterialPane;
class PairsPane;
class WaitingList;
struct WaitingRow;

class QualityStation : public Station {
  Q_OBJECT
 public:
  explicit QualityStation(Session& session, QWidget* parent = nullptr);

  // What waits there: loads to decide on, and controls that are due of the kinds the lab has begun with.
  static StationPlace place(Session& session);
  void notebook_changed(const history::Written& written) override;
  bool show_record(const RecordRef& wanted) override;  // control materials, decisions
  void enter() override;
  QString guide_page() const override { return QStringLiteral("quality"); }

  enum class Part { due, pairs, load, material };
  void take(Part part, RecordId record = 0);

 protected:
  void showEvent(QShowEvent* event) override;

 private:
  QWidget* build_hand();
  std::vector<WaitingRow> rows() const;
  void refresh();
  void read_loads();
  void show_head();
  void choose_pane();
  void show_part();

  Session& session_;
  Part part_ = Part::due;
  RecordId record_ = 0;
  bool stale_ = true, entered_ = false;
  std::vector<results::RunControls> loads_;  // newest first
  WaitingList* list_;
  Headline* head_;
  DuePane* due_;
  PairsPane* pairs_;
  LoadPane* load_;
  MaterialPane* material_;
};

}  // namespace prillbook::ui
