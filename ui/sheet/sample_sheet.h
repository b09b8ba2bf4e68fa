// SPDX-License-Identifier: GPL-3.0-or-later
// The sheet of a sample: what happened to it as a thread, its portions, and the forms to act on the one in hand.
#pragma once

#include <QtWidgets/QWidget>
#include <optional>
#include <vector>

#include "core/findings/finding.h"
#include "core/results/sample_result.h"
#include "ui/kit/session.h"
#include "ui/kit/station.h"

class QLabel;
class QScrollArea;

namespace prillbook::ui {

class BeadForm;
class CautionLine;
class ChargeForm;
class CutForm;
class Headline;
class Fold;
class Ledger;
class OwnMetalForm;
class PanForm;
class PhotographStrip;
class PortionForm;
class PressButton;
class ResultLines;
class ScreenForm;
class TextField;
class Thread;
class ToldForm;

class SampleSheet : public QWidget {
  Q_OBJECT
 public:
  // Follows the notebook by itself (session.notifier). For MainWindow::show_page.
  explicit SampleSheet(Session& session, QWidget* parent = nullptr);

  // A sample, or a portion, pan test, charge, bead or weighing of one, which is taken in hand; false for anything else.
  bool show_record(const RecordRef& wanted);
  SampleId sample() const { return sample_; }
  PortionId in_hand() const { return portion_; }  // none: the sample itself
  QString guide_page() const { return QStringLiteral("sample-sheet"); }
  // Puts the focus where the next thing is typed.
  void enter();

 signals:
  void open_requested(const prillbook::ui::RecordRef& wanted);
  void guide_requested(const QString& page);  // a page of docs, "safety/fire"
  void said(const QString& words);
  void history_requested(const prillbook::ui::RecordRef& of);  // the sample
  void labels_requested(const prillbook::ui::RecordRef& of);   // the sample, or the portion in hand
  void sieving_wanted(prillbook::PortionId portion);

 private:
  QWidget* build_left();
  QWidget* build_hand();
  QWidget* build_start_row();
  void build_cautions();
  void refresh();
  void show_head(const results::SampleRecord& record);
  void show_results(const results::SampleRecord& record);
  void show_sizes(const results::SampleResult& result);
  void show_portions(const results::SampleRecord& record);
  void show_thread(const results::SampleRecord& record);
  void show_hand(const results::SampleRecord& record);
  void take(PortionId portion);
  void start_pan();
  void start_charge(ChargeId repeat_of);
  void explain(const QString& action);
  Result<void> answer(const std::optional<std::string>& words);
  void started();
  void fit_photographs();

  Session& session_;
  SampleId sample_;
  PortionId portion_;
  Headline* head_;
  PressButton* history_;
  PressButton* labels_;
  PhotographStrip* photographs_;
  QScrollArea* photographs_place_;
  ResultLines* results_;
  QLabel* sizes_;
  Thread* thread_;
  Ledger* portions_;
  QScrollArea* scroll_;
  QLabel* hand_head_;
  PortionForm* portion_form_;
  QWidget* start_row_;
  PressButton* start_pan_;
  PressButton* start_charge_;
  PressButton* sieve_;
  PanForm* pan_;
  ChargeForm* charge_;
  BeadForm* bead_;
  CutForm* cut_;
  ScreenForm* screen_;
  OwnMetalForm* own_metal_;
  Fold* own_metal_part_;
  ToldForm* told_;
  Fold* told_part_;
  PressButton* start_repeat_;
  CautionLine* fire_caution_;
  CautionLine* pan_caution_;
  TextField* explanation_;
  std::vector<findings::OpenOrAnswered> findings_seen_;
  std::optional<findings::Finding> explaining_;
};

}  // namespace prillbook::ui
