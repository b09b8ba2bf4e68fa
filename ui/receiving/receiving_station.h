// SPDX-License-Identifier: GPL-3.0-or-later
// Receiving: what came in and of which nothing is cut yet; in hand a consignment and its samples, entered one after
// another from the keyboard.
#pragma once

#include "core/custody/custody.h"
#include "ui/kit/session.h"
#include "ui/kit/station.h"

class QLabel;

namespace prillbook::ui {

class ConsignmentForm;
class Fold;
class Headline;
class Ledger;
class PhotographStrip;
class PressButton;
class SampleForm;
class WaitingList;
struct WaitingRow;

class ReceivingStation : public Station {
  Q_OBJECT
 public:
  explicit ReceivingStation(Session& session, QWidget* parent = nullptr);

  QString title() const override;
  Icon icon() const override { return Icon::receiving; }
  int waiting_count() override;
  void notebook_changed(const history::Written& written) override;
  // Consignments only: a sample's place is its sheet.
  bool show_record(const RecordRef& wanted) override;
  void enter() override;
  QString guide_page() const override { return QStringLiteral("receiving"); }

  void new_consignment();
  void take_consignment(ConsignmentId id);
  void take_sample(SampleId id);

 signals:
  void labels_requested(const prillbook::ui::RecordRef& of);  // a consignment or a sample

 private:
  void next_sample();
  void log_sweepings();
  std::vector<WaitingRow> waiting(int from, int count) const;
  void refresh();
  void show_samples();
  void show_head();
  QWidget* build_papers();
  void show_papers();

  Session& session_;
  ConsignmentId consignment_;
  WaitingList* list_;
  Headline* head_;
  PressButton* fresh_;
  PressButton* labels_;
  PressButton* sample_label_;
  ConsignmentForm* form_;
  Fold* fold_;
  QWidget* samples_part_;
  Ledger* samples_;
  SampleForm* sample_;
  QLabel* photographs_head_;
  PhotographStrip* photographs_;
};

}  // namespace prillbook::ui
