// SPDX-License-Identifier: GPL-3.0-or-later
// Lab set-up: who the lab is, how it writes, its limits, its people, balances, clients and sieves.
#pragma once

#include <vector>

#include "ui/kit/session.h"
#include "ui/kit/station.h"

class QLabel;

namespace prillbook::ui {

class CheckPage;
class Headline;
class LabPage;
class PortPage;
class PressButton;
class RecordTable;
class StackTable;
class WaitingList;

class SetupStation : public Station {
  Q_OBJECT
 public:
  enum class Part {
    lab = 1,
    limits,
    people,
    balances,
    checks,
    port,
    machines,
    sieves,
    furnace,
    clients,
    places,
    bench_sheets,
    copies,
    journal
  };

  // Writes session.writing where the lab changes its decimal mark.
  explicit SetupStation(Session& session, QWidget* parent = nullptr);

  static StationPlace place(Session& session);
  void notebook_changed(const history::Written& written) override;
  bool follows_out_of_sight() const override { return true; }  // the decimal mark of the session
  // Settings, people, balances, machines, sieves, stacks, clients, storage places.
  bool show_record(const RecordRef& wanted) override;
  void enter() override;
  QString guide_page() const override { return QStringLiteral("setup"); }
  void show_part(Part part);

 signals:
  void bench_sheets_requested();
  void copies_requested();
  void journal_requested();

 private:
  std::vector<struct WaitingRow> parts() const;

  Session& session_;
  WaitingList* list_;
  Headline* head_;
  LabPage* lab_;
  LabPage* limits_;
  RecordTable* people_;
  RecordTable* balances_;
  CheckPage* checks_;
  PortPage* port_;
  RecordTable* machines_;
  RecordTable* clients_;
  PressButton* print_bench_sheets_;
  PressButton* look_at_copies_;
  PressButton* look_at_journal_;
  QWidget* bench_sheets_;
  QWidget* copies_;
  QWidget* journal_;
  QWidget* sieves_page_;
  RecordTable* sieves_;
  StackTable* stacks_;
  RecordTable* places_;
  QWidget* furnace_page_;
  RecordTable* lots_;
  RecordTable* pots_;
  RecordTable* recipes_;
};

}  // namespace prillbook::ui
