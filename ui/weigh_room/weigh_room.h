// SPDX-License-Identifier: GPL-3.0-or-later
// The weigh room: one bead after another, one huge figure. Enter takes a reading and goes on to the next bead.
#pragma once

#include <optional>
#include <vector>

#include "core/balance_line/steady.h"
#include "core/results/sample_record.h"
#include "core/trays/trays.h"
#include "core/weighing/plausibility.h"
#include "ui/kit/fields.h"
#include "ui/kit/session.h"
#include "ui/kit/station.h"
#include "ui/kit/waiting_list.h"
#include "ui/weigh_room/tray_row.h"

class QLabel;

namespace prillbook::ui {

class BalancePort;
class FinenessForm;
class Headline;
class MassField;
class ReasonLine;
class RecentReadings;

class WeighRoom : public Station {
  Q_OBJECT
 public:
  // `session` outlives the station.
  explicit WeighRoom(Session& session, QWidget* parent = nullptr);

  static StationPlace place(Session& session);
  void notebook_changed(const history::Written& written) override;
  // Takes a bead, the bead of a pan test or charge, or of a weighing.
  bool show_record(const RecordRef& wanted) override;
  void enter() override;
  QString guide_page() const override { return QStringLiteral("weigh-room"); }

  BeadId in_hand() const { return bead_; }

 private:
  void build_controls();
  void build_in_hand();
  QWidget* keys_line();
  void connect_parts();

  // what is in hand
  void take(BeadId bead);
  void take_next();
  void take_before();
  void read_record();
  const weighing::Bead* bead_in_record() const;
  void show_in_hand();
  void show_earlier(const weighing::Bead* bead);
  QString spread_words(const weighing::Bead& bead) const;

  // what the figure would give
  void show_grade(const readings::Reading* typed);
  void show_step(const readings::Reading* typed);
  readings::Reading on_balance(readings::Reading reading) const;
  weighing::Weighed context() const;
  void take_earlier(weighing::Weighed& context) const;
  std::optional<ReadingField::Doubt> doubt(const readings::Reading& typed) const;
  QString swap_words(const readings::Reading& reading) const;

  // lists
  std::vector<weighing::Origin> waiting_beads() const;
  std::vector<WaitingRow> waiting_rows(int from, int count) const;
  void refresh_lists();
  void refresh_balances();
  void refresh_tray();
  void refresh_trays();
  void show_tray();
  std::int64_t rank(BeadId bead) const;  // along the way through what waits
  std::optional<TrayPlace> handled(BeadId id) const;

  // at the balance
  PersonId person_working() const;
  void remember(BeadId bead);
  Result<void> take_reading(const readings::Reading& reading);
  void reading_taken();
  void weigh_again();
  void none_seen();
  void ask_why_spoiled();
  Result<void> spoil(const QString& reason);
  void change_what(const std::string& what);
  void change_balance(BalanceId balance);
  void change_unit(const std::string& unit);
  void change_tray(TrayId tray);
  void take_from_balance(const balance_line::Figure& figure, const QString& raw);
  void enter_from_balance(const balance_line::Figure& figure, const QString& raw);
  void watch_balance(const balance_line::Figure& figure, const QString& raw);
  void take_what_is_shown();
  std::optional<double> grams_of(const balance_line::Figure& figure) const;

  // a cup on the balance
  enum class Cup { none, asked, known };
  void ask_for_cup();
  Result<void> take_cup(const readings::Reading& reading);
  void show_cup();
  Result<readings::Reading> as_net(const readings::Reading& reading) const;
  void set_large(bool large);
  void focus_field();  // the figure, or the list where no bead is in hand

  Session& session_;
  WaitingList* waiting_;
  Headline* head_;
  TrayRow* tray_;
  QWidget* controls_;
  PickField* tray_field_;
  ChoiceField* what_field_;
  PickField* balance_field_;
  ChoiceField* unit_field_;
  MassField* mass_;
  QLabel* grade_;
  QLabel* grade_words_;
  QLabel* earlier_;
  ReasonLine* reason_;
  FinenessForm* fineness_;
  RecentReadings* recent_;
  QWidget* desk_;    // everything that needs a bead in hand
  QLabel* no_bead_;  // what to do where there is none
  QWidget* below_;   // last readings and fineness
  BalancePort* port_;
  QLabel* live_words_;  // what a balance shows that sends all the time
  QLabel* cup_words_;

  std::string what_;
  BeadId bead_;
  std::optional<results::SampleRecord> record_;
  std::optional<lab::Balance> balance_;
  std::optional<trays::Tray> on_bench_;  // walked position by position; none: the list of what waits
  balance_line::SteadyReadings steady_;  // of a balance that sends all the time
  balance_line::Figure shown_;           // what it showed last
  QString shown_line_;
  Cup cup_ = Cup::none;
  readings::Figure tare_;
  bool cup_taken_ = false;  // what was just entered is the cup, no bead
  std::string sent_line_;   // of the figure in the field, where the balance sent it
  QString sent_text_;
  bool large_ = false;         // for eyes a metre away
  std::vector<BeadId> trail_;  // beads handled, the newest last
  bool again_ = false;         // the next reading is of the same bead
  bool writing_ = false;       // a gesture of this station is under way
};

}  // namespace prillbook::ui
