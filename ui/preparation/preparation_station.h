// SPDX-License-Identifier: GPL-3.0-or-later
// Preparation: what waits for the machine, in the order of its plan; in hand a sample, its way as a river, and the next
// step on the reach that was taken.
#pragma once

#include "core/milling/machines.h"
#include "core/results/sample_result.h"
#include "ui/kit/fields.h"
#include "ui/kit/session.h"
#include "ui/kit/station.h"

class QScrollArea;

namespace prillbook::ui {

class CompositeForm;
class EnoughPane;
class FindingsPanel;
class Fold;
class Headline;
class MachinePane;
class MassPicture;
class OrderPane;
class PressButton;
class StepForm;
class WaitingList;
struct WaitingRow;

class PreparationStation : public Station {
  Q_OBJECT
 public:
  explicit PreparationStation(Session& session, QWidget* parent = nullptr);

  static StationPlace place(Session& session);
  void notebook_changed(const history::Written& written) override;
  // Steps, machines and cleanings, crushing orders.
  bool show_record(const RecordRef& wanted) override;
  void enter() override;
  QString guide_page() const override { return QStringLiteral("preparation"); }

  void take_sample(SampleId id);
  SampleId in_hand() const { return sample_; }
  MachineId machine() const { return machine_; }

 private:
  void build_in_hand(QWidget* hand);
  void connect_parts();
  std::vector<WaitingRow> waiting(int from, int count) const;
  std::vector<WaitingRow> queue() const;
  void take_machine(MachineId id);
  void refresh();
  void refresh_machines();
  void show_sample();
  void show_head(const results::SampleRecord& record);
  void take_reach(int reach);
  void open_record(const RecordRef& record);
  void print_picture();

  Session& session_;
  SampleId sample_;
  PortionId holder_;
  MachineId machine_;
  std::vector<milling::Machine> machines_;
  PickField* machine_field_;
  WaitingList* list_;
  Headline* head_;
  PressButton* print_;
  PressButton* sheet_;
  MassPicture* picture_;
  QScrollArea* picture_place_;
  FindingsPanel* findings_;
  StepForm* form_;
  MachinePane* machine_pane_;
  OrderPane* order_;
  EnoughPane* enough_;
  CompositeForm* composite_;
  Fold* machine_fold_;
  Fold* order_fold_;
  Fold* enough_fold_;
  Fold* composite_fold_;
};

}  // namespace prillbook::ui
