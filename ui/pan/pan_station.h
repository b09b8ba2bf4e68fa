// SPDX-License-Identifier: GPL-3.0-or-later
// Pan: portions that wait, the pan test in hand with its pannings, and the balance of mass and gold as it stands.
#pragma once

#include "core/gravity/pan_test.h"
#include "ui/kit/session.h"
#include "ui/kit/station.h"

class QLabel;

namespace prillbook::ui {

class AccountPanel;
class CautionLine;
class FindingsPanel;
class Headline;
class PannedForm;
class PressButton;
class WaitingList;
struct WaitingRow;

class PanStation : public Station {
  Q_OBJECT
 public:
  explicit PanStation(Session& session, QWidget* parent = nullptr);

  static StationPlace place(Session& session);
  void notebook_changed(const history::Written& written) override;
  bool show_record(const RecordRef& wanted) override;  // pannings
  void enter() override;
  QString guide_page() const override { return QStringLiteral("pan"); }

  void take_portion(PortionId portion);  // its pan test, or the button that begins one
  void take_test(PanTestId test);

 private:
  QWidget* build_hand();
  QWidget* build_foot();
  std::vector<WaitingRow> waiting(int from, int count) const;
  void refresh();
  void show_head();
  void begin();

  Session& session_;
  PortionId portion_;
  PanTestId test_;
  WaitingList* list_;
  Headline* head_;
  QLabel* nothing_;
  PressButton* begin_;
  QWidget* hand_ = nullptr;
  PannedForm* form_;
  FindingsPanel* findings_;
  AccountPanel* account_;
  CautionLine* dust_;
  CautionLine* mercury_;
};

}  // namespace prillbook::ui
