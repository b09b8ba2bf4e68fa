// SPDX-License-Identifier: GPL-3.0-or-later
// What the client gets: the samples that go into it, its pages as they will be printed, and the files.
#pragma once

#include <vector>

#include "ui/kit/session.h"
#include "ui/kit/station.h"

namespace prillbook::ui {

class PagesView;
class SampleChoice;
class WaitingList;

class SummaryStation : public Station {
  Q_OBJECT
 public:
  // `session` outlives the station.
  explicit SummaryStation(Session& session, QWidget* parent = nullptr);
  ~SummaryStation() override;

  QString title() const override;
  Icon icon() const override { return Icon::summary; }
  int waiting_count() override;
  void notebook_changed(const history::Written& written) override;
  // Takes a client, or the client of a sample with that sample alone.
  bool show_record(const RecordRef& wanted) override;
  void enter() override;
  QString guide_page() const override { return QStringLiteral("summary"); }

  ClientId in_hand() const { return client_; }

 private:
  struct Parts;
  Session& session_;
  WaitingList* waiting_;
  std::unique_ptr<Parts> parts_;
  ClientId client_;
};

}  // namespace prillbook::ui
