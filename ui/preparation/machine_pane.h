// SPDX-License-Identifier: GPL-3.0-or-later
// One machine: what it holds, what went through and how it was cleaned since, and the key that cleans it as last time.
#pragma once

#include <QtWidgets/QWidget>

#include "core/results/machine_uses.h"
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
  DateTimeField* cleaned_at() const { return cleaned_at_; }
  ReadingField* flush_grade() const { return flush_grade_; }
  Ledger* events() const { return events_; }
  QString words() const;
  QString refusal_words() const;

 signals:
  void said(const QString& words);

 private:
  using Assay = std::function<void(milling::Cleaning& flush, const readings::Figure& grade)>;
  void build();
  void bind();
  void bind_assay(ReadingField* field, Assay put);
  void log_cleaning();
  void show_state();
  void show_events(const std::vector<milling::Cleaning>& cleanings);
  void show_flush(const std::vector<milling::Cleaning>& cleanings);
  void refuse(const Error& error);

  Session& session_;
  MachineId machine_;
  CleaningId flush_;  // kept: the newest that waits for its assay, else the newest
  readings::Figure mass_;
  std::optional<Instant> when_;
  bool kept_ = false;
  QLabel* words_;
  Ledger* events_;
  PressButton* again_;
  ChoiceField* way_;
  ReadingField* flush_mass_;
  FlagField* kept_field_;
  DateTimeField* cleaned_at_;
  PressButton* log_;
  PressButton* retire_;
  QWidget* assay_part_;
  QLabel* assay_head_;
  ReadingField* flush_grade_;
  ReadingField* flush_u_;
  ReadingField* barren_grade_;
  QLabel* refused_;
};

}  // namespace prillbook::ui
