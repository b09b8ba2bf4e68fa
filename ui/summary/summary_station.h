// SPDX-License-Identifier: GPL-3.0-or-later
// What the client gets: the samples that go into it, its pages as they will be printed, and the files.
#pragma once

#include <functional>
#include <vector>

#include "core/issue/summaries.h"
#include "core/results/lists.h"
#include "ui/kit/session.h"
#include "ui/kit/station.h"

class QComboBox;
class QLabel;
class QListWidget;
class QPushButton;
class QTimer;

namespace prillbook::ui {

class Headline;
class MessageBar;
class MillingPanel;
class NumberedSummaries;
class OriginsView;
class OwnWords;
class PagesView;
class ReportRun;
class WaitingList;

enum class FileKind { pdf, spreadsheet, list, plain };

class SummaryStation : public Station {
  Q_OBJECT
 public:
  // `session` outlives the station.
  explicit SummaryStation(Session& session, QWidget* parent = nullptr);
  ~SummaryStation() override;  // stops what is being drawn or written, and waits for that

  static StationPlace place(Session& session);  // what waits there: clients with results
  void notebook_changed(const history::Written& written) override;
  bool show_record(const RecordRef& wanted) override;  // takes a client
  void enter() override;
  QString guide_page() const override { return QStringLiteral("summary"); }

  // The client of a sample, with that sample alone chosen.
  void take_sample(SampleId sample);
  ClientId in_hand() const { return client_; }
  std::vector<SampleId> chosen() const;
  // Those of one consignment of the client in hand alone; none: those with results.
  void choose_consignment(ConsignmentId id);
  NumberedSummaries& numbered() { return *numbered_; }
  // Asks where to and writes there. The window stays alive; news and errors stand under the buttons.
  void write(FileKind kind);
  void stop_writing();
  bool writing() const;

 signals:
  void finished(bool written);

 private:
  QWidget* build_in_hand();
  void take(ClientId client);
  void show_samples();
  void show_pages();
  void fill_consignments();
  void tick(const std::function<bool(SampleId)>& wanted);
  void samples_chosen();
  void say_shown(std::size_t shown, std::size_t all);
  void write_to(FileKind kind, const QString& path);
  void end_writing(const QString& path, const Result<void>& result);
  void set_buttons();
  issue::Summary choice(const std::vector<SampleId>& samples) const;
  QString suggested(const QString& ending) const;

  Session& session_;
  WaitingList* waiting_;
  Headline* head_;
  QComboBox* consignments_;
  QListWidget* samples_;
  QLabel* chosen_words_;
  std::vector<QPushButton*> buttons_;
  QPushButton* stop_;
  NumberedSummaries* numbered_;
  MessageBar* news_;
  QLabel* cut_;
  PagesView* pages_;
  OriginsView* origins_;
  MillingPanel* milling_;
  OwnWords* own_words_;
  QTimer* soon_;
  ReportRun *preview_, *file_;
  ClientId client_;
  QString client_name_;
  bool filling_ = false;
};

}  // namespace prillbook::ui
