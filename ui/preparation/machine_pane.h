// SPDX-License-Identifier: GPL-3.0-or-later
// One machine: what it holds, what went through and how it was cleaned since, and the key that cleans it as last time.
#pragma once

#include <QtWidgets/QWidget>

#include "core/results/machine_risk.h"
#include "ui/kit/fields.h"
#include "ui/kit/session.h"

class QLabel;

namespace prillbook::ui {

class Ledger;
class PressButton;

class MachinePane : public QWidget {
  Q_OBJECT
 public:
  explicit MachinePane(Session& session, QWidget* parent = nullptr);
  void show_machine(MachineId machine);  // none: nothing to see
  void refresh();
  void clean_again();

  PressButton* again() const { return again_; }
  ChoiceField* way() const { return way_; }
  ReadingField* flush_mass() const { return flush_mass_; }
  PressButton* log() const { return log_; }
  PressButton* retire() const { return retire_; }
  ReadingField* flush_grade() const { return flush_grade_; }
  QString words() const;

 signals:
  void said(const QString& words);

 private:
  void build();
  void log_cleaning();
  void show_events(const std::vector<milling::Step>& uses, const std::vector<milling::Cleaning>& cleanings);
  void refuse(const Error& error);

  Session& session_;
  MachineId machine_;
  CleaningId flush_;  // the last kept flush
  readings::Figure mass_;
  bool kept_ = false;
  QLabel* words_;
  Ledger* events_;
  PressButton* again_;
  ChoiceField* way_;
  ReadingField* flush_mass_;
  FlagField* kept_field_;
  PressButton* log_;
  PressButton* retire_;
  ReadingField* flush_grade_;
  QLabel* refused_;
};

}  // namespace prillbook::ui
