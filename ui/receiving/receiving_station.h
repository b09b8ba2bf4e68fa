// SPDX-License-Identifier: GPL-3.0-or-later
// Receiving: what came in and of which nothing is cut yet; in hand a consignment and its samples, entered one after
// another from the keyboard.
#pragma once

#include <functional>

#include "core/custody/custody.h"
#include "ui/kit/session.h"
#include "ui/kit/station.h"

class QLabel;

namespace prillbook::summary {
struct Report;
}

namespace prillbook::ui {

class ConsignmentForm;
class Fold;
class Headline;
class ImportPage;
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

  static StationPlace place(Session& session);
  void notebook_changed(const history::Written& written) override;
  // Consignments only: a sample's place is its sheet.
  bool show_record(const RecordRef& wanted) override;
  void enter() override;
  QString guide_page() const override { return QStringLiteral("receiving"); }

  void new_consignment();
  void take_consignment(ConsignmentId id);
  void take_sample(SampleId id);
  // A client's list for the consignment in hand: from a file that is asked for, or the rows on the clipboard.
  void import_file();
  void import_pasted();

 signals:
  void labels_requested(const prillbook::ui::RecordRef& of);  // a consignment or a sample

 private:
  void build_import();
  bool can_import();
  void show_import(bool shown);
  void next_sample();
  void log_sweepings();
  void write_custody_record();
  void write_custody_of_all();
  void save_custody(const QString& number, const std::function<Result<summary::Report>(const Instant&)>& report_at);
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
  PressButton* custody_;  // of the consignment; the sample's form has its own
  PressButton* sample_label_;
  ConsignmentForm* form_;
  Fold* fold_;
  Fold* pieces_;
  QWidget* samples_part_;
  Ledger* samples_;
  SampleForm* sample_;
  QWidget* bench_ = nullptr;
  ImportPage* import_ = nullptr;
  PressButton* import_button_;
  QLabel* photographs_head_;
  PhotographStrip* photographs_;
};

}  // namespace prillbook::ui
