// SPDX-License-Identifier: GPL-3.0-or-later
// What the client gets: the samples that go into it, its pages as they will be printed, and the files.
#pragma once

#include <vector>

#include "core/results/lists.h"
#include "core/summary/report.h"
#include "ui/kit/session.h"
#include "ui/kit/station.h"

class QLabel;
class QListWidget;
class QPushButton;
class QThread;
class QTimer;

namespace prillbook::ui {

class Headline;
class MessageBar;
class NumberedSummaries;
class OriginsView;
class PagesView;
class WaitingList;

enum class FileKind { pdf, spreadsheet, list, plain };

class SummaryStation : public Station {
  Q_OBJECT
 public:
  // `session` outlives the station.
  explicit SummaryStation(Session& session, QWidget* parent = nullptr);
  ~SummaryStation() override;  // waits for a file that is being written

  static StationPlace place(Session& session);  // what waits there: clients with results
  void notebook_changed(const history::Written& written) override;
  bool show_record(const RecordRef& wanted) override;  // takes a client
  void enter() override;
  QString guide_page() const override { return QStringLiteral("summary"); }

  // The client of a sample, with that sample alone chosen.
  void take_sample(SampleId sample);
  ClientId in_hand() const { return client_; }
  std::vector<SampleId> chosen() const;
  // Asks where to and writes there. The window stays alive; news and errors stand under the buttons.
  void write(FileKind kind);
  bool writing() const { return worker_ != nullptr; }

 signals:
  void finished(bool written);

 private:
  QWidget* build_in_hand();
  void take(ClientId client);
  void show_samples();
  void show_pages();
  void show_origins(const std::vector<SampleId>& samples);
  void write_to(FileKind kind, const QString& path);
  void end_writing(const QString& path, const Result<void>& result);
  Result<summary::Report> report_of(const std::vector<SampleId>& samples);
  QString suggested(const QString& ending) const;

  Session& session_;
  WaitingList* waiting_;
  Headline* head_;
  QListWidget* samples_;
  QLabel* chosen_words_;
  std::vector<QPushButton*> buttons_;
  NumberedSummaries* numbered_;
  MessageBar* news_;
  QLabel* cut_;
  PagesView* pages_;
  OriginsView* origins_;
  QTimer* soon_;
  QThread* worker_ = nullptr;
  ClientId client_;
  QString client_name_;
  bool filling_ = false;
};

}  // namespace prillbook::ui
