// SPDX-License-Identifier: GPL-3.0-or-later
// Sieves: portions that wait for their stack, the stack in hand with its curve, and the analyses made.
#pragma once

#include "core/sieve_records/analyses.h"
#include "ui/kit/session.h"
#include "ui/kit/station.h"

class QLabel;

namespace prillbook::ui {

class CurvePanel;
class FindingsPanel;
class Fold;
class Headline;
class PickField;
class PressButton;
class RecordFields;
class SieveLines;
class StartForm;
class WaitingList;
struct WaitingRow;

class SievesStation : public Station {
  Q_OBJECT
 public:
  explicit SievesStation(Session& session, QWidget* parent = nullptr);

  static StationPlace place(Session& session);
  void notebook_changed(const history::Written& written) override;
  bool show_record(const RecordRef& wanted) override;  // sieve analyses and their cuts
  void enter() override;
  QString guide_page() const override { return QStringLiteral("sieves"); }

  void take_portion(PortionId portion);  // its newest analysis, or the form that begins one
  void take_analysis(SieveAnalysisId analysis);

 private:
  QWidget* build_hand();
  QWidget* build_form();
  std::vector<WaitingRow> waiting(int from, int count) const;
  void refresh();
  void show_head();
  void show_live();
  void make_fractions();

  Session& session_;
  PortionId portion_;
  SieveAnalysisId analysis_;
  WaitingList* list_;
  Headline* head_;
  QLabel* nothing_;
  StartForm* start_;
  QWidget* hand_;
  RecordFields* fields_;
  PickField* balance_ = nullptr;
  SieveLines* lines_;
  QLabel* loss_;
  FindingsPanel* findings_;
  CurvePanel* curve_;
};

}  // namespace prillbook::ui
