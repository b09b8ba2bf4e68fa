// SPDX-License-Identifier: GPL-3.0-or-later
// Furnace: portions that wait for their charge, charges in the fire, and the runs they went through.
#pragma once

#include "core/fire/runs.h"
#include "ui/kit/session.h"
#include "ui/kit/station.h"

class QLabel;

namespace prillbook::ui {

class ChargePane;
class FindingsPanel;
class Headline;
class PressButton;
class RunPane;
class WaitingList;
struct WaitingRow;

class FurnaceStation : public Station {
  Q_OBJECT
 public:
  explicit FurnaceStation(Session& session, QWidget* parent = nullptr);

  static StationPlace place(Session& session);
  void notebook_changed(const history::Written& written) override;
  bool show_record(const RecordRef& wanted) override;  // runs, designs and reducing tests
  void enter() override;
  QString guide_page() const override { return QStringLiteral("furnace"); }

  void take_portion(PortionId portion);
  void take_run(FurnaceRunId run);

 private:
  QWidget* build_hand();
  std::vector<WaitingRow> waiting(int from, int count) const;
  void refresh();
  void show_head();
  void begin_run(const char* kind);

  Session& session_;
  PortionId portion_;
  FurnaceRunId run_;
  WaitingList* list_;
  Headline* head_;
  PressButton* sheet_;
  QLabel* nothing_;
  FindingsPanel* findings_;
  ChargePane* charge_;
  RunPane* load_;
};

}  // namespace prillbook::ui
