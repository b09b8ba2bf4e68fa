// SPDX-License-Identifier: GPL-3.0-or-later
// Furnace: portions that wait for their charge, charges in the fire, and the runs they went through.
#pragma once

#include "core/fire/runs.h"
#include "core/trays/trays.h"
#include "ui/kit/session.h"
#include "ui/kit/station.h"

class QLabel;

namespace prillbook::ui {

class ChargePane;
class FindingsPanel;
class Headline;
class PressButton;
class RunPane;
class TrayPane;
class WaitingList;
struct WaitingRow;

class FurnaceStation : public Station {
  Q_OBJECT
 public:
  explicit FurnaceStation(Session& session, QWidget* parent = nullptr);

  static StationPlace place(Session& session);
  void notebook_changed(const history::Written& written) override;
  // Runs, trays, designs; the label of a charge while a tray is in hand puts it there.
  bool show_record(const RecordRef& wanted) override;
  void enter() override;
  QString guide_page() const override { return QStringLiteral("furnace"); }

  void take_portion(PortionId portion);
  void take_run(FurnaceRunId run);
  void take_tray(TrayId tray);

 signals:
  void tray_sheet_requested(prillbook::TrayId tray);

 private:
  QWidget* build_hand();
  std::vector<WaitingRow> waiting(int from, int count) const;
  void refresh();
  void show_head();
  void begin_run(const char* kind);
  void lay_out_tray();
  void take_row(RecordId id);
  RecordId row_in_hand() const;

  Session& session_;
  PortionId portion_;
  FurnaceRunId run_;  // one of the three is in hand, or none
  TrayId tray_;
  WaitingList* list_;
  Headline* head_;
  PressButton* sheet_;
  QLabel* nothing_;
  FindingsPanel* findings_;
  ChargePane* charge_;
  RunPane* load_;
  TrayPane* trays_;
};

}  // namespace prillbook::ui
