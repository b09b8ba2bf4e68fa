// SPDX-License-Identifier: GPL-3.0-or-later
// Pan against fire: one scale in g/t, the verdict in large words, what the doubt comes from, and every charge.
#pragma once

#include "ui/kit/session.h"
#include "ui/kit/station.h"

class QStackedWidget;

namespace prillbook::ui {

class ComparePage;
class ManyPage;
class PressButton;
class WaitingList;

class CompareStation : public Station {
  Q_OBJECT
 public:
  // `session` outlives the station.
  explicit CompareStation(Session& session, QWidget* parent = nullptr);

  static StationPlace place(Session& session);
  void notebook_changed(const history::Written& written) override;
  // False: a sample belongs on its sheet.
  bool show_record(const RecordRef& wanted) override;
  void enter() override;
  QString guide_page() const override { return QStringLiteral("compare"); }

  // Puts pan and fire of a sample side by side.
  void take(SampleId sample);
  SampleId in_hand() const { return sample_; }
  // All samples with pan and fire side by side, or the one in hand again.
  void show_many(bool many);
  ManyPage* many() const { return many_; }

 private:
  QWidget* build_column();

  Session& session_;
  WaitingList* waiting_;
  ComparePage* page_;
  ManyPage* many_;
  QStackedWidget* pages_;
  PressButton* switch_;
  SampleId sample_;
};

}  // namespace prillbook::ui
