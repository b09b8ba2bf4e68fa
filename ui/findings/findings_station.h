// SPDX-License-Identifier: GPL-3.0-or-later
// Findings: all that the notebook noticed and nobody has explained yet, of every sample.
#pragma once

#include <memory>

#include "core/findings/board.h"
#include "ui/kit/session.h"
#include "ui/kit/station.h"

class QComboBox;
class QLabel;
class QLineEdit;

namespace prillbook::ui {

class FindingPage;
class FindingsWatch;
class WaitingList;
struct WaitingRow;

class FindingsStation : public Station {
  Q_OBJECT
 public:
  FindingsStation(Session& session, std::shared_ptr<FindingsWatch> watch, QWidget* parent = nullptr);

  // What waits there are the open findings; no number before the notebook was read.
  static StationPlace place(Session& session);
  void notebook_changed(const history::Written&) override {}  // the watch hears of it and tells
  bool show_record(const RecordRef&) override { return false; }
  void enter() override;
  QString guide_page() const override { return QStringLiteral("findings"); }

 private:
  QWidget* build_column();
  QComboBox* choice(const QString& name, const QStringList& words);
  void show_news();
  void refresh();
  void tell_progress();
  void fill_rules();
  findings::BoardWish wish() const;
  std::vector<WaitingRow> rows(int from, int count) const;
  RecordId row_id(const findings::Noticed& noticed) const;
  void take(RecordId row);
  void take_what_stands();

  Session& session_;
  std::shared_ptr<FindingsWatch> watch_;
  std::vector<findings::Noticed> listed_;
  QLabel* news_;
  QComboBox* standing_;
  QComboBox* order_;
  QComboBox* severity_;
  QComboBox* rule_;
  QLineEdit* number_;
  WaitingList* list_;
  FindingPage* page_;
};

}  // namespace prillbook::ui
